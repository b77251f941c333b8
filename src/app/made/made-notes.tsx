import { AS_MADE, OLD_PAPER, sayMade } from "../../words/index.ts";
import type { Write } from "../kit/index.ts";
import styles from "./record.module.css";
import type { MadeNow } from "./use-made.ts";

/** In the head of a station: paper that no longer holds, and what becomes of a bar that is not what is wanted now. */
export function MadeNotes({
  known: { old, made },
  write,
}: {
  readonly known: MadeNow;
  readonly write: Write;
}) {
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
          {sayMade(made.verdict, write)}
        </p>
      )}
    </>
  );
}
