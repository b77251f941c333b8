import { OLD_PAPER } from "../../words/index.ts";
import styles from "./record.module.css";
import type { MadeNow } from "./use-made.ts";

/** The card in the shop has other figures than the plan now. */
export function OldPaper({ old }: { readonly old: MadeNow["old"] }) {
  return old ? (
    <p className={styles.old} role="note" aria-label={OLD_PAPER.label}>
      <span aria-hidden="true">⚠ </span>
      {OLD_PAPER.says(old.had, old.now)}
    </p>
  ) : null;
}
