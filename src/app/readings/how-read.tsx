import { useMemo } from "react";
import type { LiesPicture } from "../../cards/how-it-lies.ts";
import { sayPicture } from "../../words/index.ts";
import { Picture } from "../kit/index.ts";
import styles from "./how-read.module.css";

/** How a reading is read, drawn as on the measuring plan, with the side from which it is seen. */
export function HowRead({ picture, label }: { readonly picture: LiesPicture; readonly label: string }) {
  const sheet = useMemo(
    () => ({ name: label, width: picture.width, height: picture.height, marks: picture.marks }),
    [picture, label],
  );
  return (
    <figure className={styles.figure}>
      <Picture sheet={sheet} label={sayPicture(label, picture.seen)} />
      <figcaption>{picture.seen}</figcaption>
    </figure>
  );
}
