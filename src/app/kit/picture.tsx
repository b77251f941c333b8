import { useMemo } from "react";
// Not by the room's index, which brings the PDF writer along.
import { toSvg } from "../../draw/sinks/svg.ts";
import type { Sheet } from "../../draw/types.ts";
import { classes } from "./classes.ts";
import styles from "./picture.module.css";

/** A sheet of a card on the screen, in the screen's own ink. */
export function Picture({ sheet, label }: { readonly sheet: Sheet; readonly label: string }) {
  const svg = useMemo(() => toSvg(sheet), [sheet]);
  return <Drawn svg={svg} label={label} />;
}

/** The same from its SVG; without a label it is no more than a picture of what the button round it names. */
export function Drawn(props: { readonly svg: string; readonly label?: string; readonly className?: string }) {
  const { svg, label, className } = props;
  // The policy of the page allows no style in an element; the style sheet says the same.
  const plain = useMemo(() => svg.replace(/ style="[^"]*"/, ""), [svg]);
  return (
    <div
      className={classes(styles.drawn, className)}
      {...(label === undefined ? { "aria-hidden": true } : { role: "img", "aria-label": label })}
      // biome-ignore lint/security/noDangerouslySetInnerHtml: our own sink, which escapes every text
      dangerouslySetInnerHTML={{ __html: plain }}
    />
  );
}
