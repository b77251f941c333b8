import type { End } from "../../core/job/index.ts";
import { isOnTube } from "../../core/plan/index.ts";
import { AS_MADE, isEased, OLD_PAPER, sayChanged } from "../../words/index.ts";
import { Decides, type Write } from "../kit/index.ts";
import styles from "./record.module.css";
import type { MadeNow } from "./use-made.ts";

/** In the head of a station: paper that no longer holds, and what becomes of a bar that is not what is wanted now. */
export function MadeNotes(props: {
  readonly known: MadeNow;
  /** The plan's allowance. */
  readonly trim: Readonly<Record<End, number>>;
  readonly write: Write;
}) {
  const { trim, write } = props;
  const { old, made } = props.known;
  const tube = made && isOnTube(made) ? { A: trim.A + made.extra.A, B: trim.B + made.extra.B } : undefined;
  return (
    <>
      {old && (
        <p className={styles.old} role="note" aria-label={OLD_PAPER.label}>
          <span aria-hidden="true">⚠ </span>
          {OLD_PAPER.says(old.had, old.now)}
        </p>
      )}
      {made?.verdict && (
        <p className={styles.old} role="note" aria-label={AS_MADE.changed}>
          {sayChanged(made.verdict, tube, write)}
        </p>
      )}
      {made?.verdict && isEased(made.verdict) && <Decides />}
    </>
  );
}
