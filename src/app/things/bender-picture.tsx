import { BENDER_SHEET } from "../../words/index.ts";
import { at } from "../model/document/index.ts";
import type { Edit } from "./edit.ts";
import styles from "./things.module.css";

/** The bender seen from the tail along the tube: which way it bends, and where its height is read. */
export function BenderPicture({ edit }: { readonly edit: Edit }) {
  const isRight = at(edit.document, ["bender", "turnSide"]) === "right";
  const x = isRight ? 1 : -1;
  return (
    <figure className={styles.driver}>
      <svg viewBox="-150 0 300 170" role="img" aria-label={BENDER_SHEET.picture(isRight ? "right" : "left")}>
        <path className={styles.floor} d="M-140 160H140" />
        <path className={styles.thin} d="M-30 60H30V160M-30 60V160" />
        <circle className={styles.seen} cx="0" cy="46" r="14" />
        <circle className={styles.thin} cx="0" cy="46" r="10" />
        <path className={styles.body} d={`M${x * 16} 46H${x * 104}`} />
        <path className={styles.seen} d={`M${x * 104} 46l${-x * 16} -7v14z`} />
        <text x={x * 66} y="32" textAnchor="middle">
          {BENDER_SHEET.bends}
        </text>
        <path className={styles.thin} d={`M${-x * 4} 46H${-x * 92}M${-x * 84} 46V160`} />
        <path className={styles.seen} d={`M${-x * 84} 46l-5 14h10zM${-x * 84} 160l-5 -14h10z`} />
        <text x={-x * 90} y="108" textAnchor={isRight ? "end" : "start"}>
          {BENDER_SHEET.height}
        </text>
      </svg>
      <figcaption>{BENDER_SHEET.note}</figcaption>
    </figure>
  );
}
