import { useMemo } from "react";
// Not by the room's index, which brings the PDF writer along.
import { toSvg } from "../../draw/sinks/svg.ts";
import type { Sheet } from "../../draw/types.ts";
import styles from "./picture.module.css";

/** A sheet of a card on the screen, in the screen's own ink. */
export function Picture({ sheet, label }: { readonly sheet: Sheet; readonly label: string }) {
  // The policy of the page allows no style in an element; the style sheet says the same.
  const svg = useMemo(() => toSvg(sheet).replace(/ style="[^"]*"/, ""), [sheet]);
  return (
    <div
      className={styles.drawn}
      role="img"
      aria-label={label}
      // biome-ignore lint/security/noDangerouslySetInnerHtml: our own sink, which escapes every text
      dangerouslySetInnerHTML={{ __html: svg }}
    />
  );
}
