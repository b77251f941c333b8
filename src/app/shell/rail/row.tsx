import { memo } from "react";
import { PROGRESS } from "../../../core/job/index.ts";
import { RAIL } from "../../../words/index.ts";
import { classes } from "../../kit/index.ts";
import { useAppItself } from "../../model/state/index.ts";
import styles from "./rail.module.css";
import { pick } from "./rail-state.ts";
import type { BarRow } from "./rows.ts";

/** Sawn, bent, notched, fitted, tacked, welded. */
const STEPS = PROGRESS.slice(1);

/** Six marks, as words say them beside: full where done, half for one end notched, a dash for a step not to be done. */
export function Steps({ row }: { readonly row: BarRow }) {
  const come = PROGRESS.indexOf(row.progress);
  let [rings, full] = ["", ""];
  STEPS.forEach((step, i) => {
    const x = 2 + 11 * i;
    if (step === "bent" && !row.isBent) {
      rings += `M${x} 6h8`;
      return;
    }
    rings += `M${x} 6a4 4 0 1 0 8 0a4 4 0 1 0-8 0`;
    if (i < come) full += `M${x} 6a4 4 0 1 0 8 0a4 4 0 1 0-8 0`;
    else if (step === "notched" && row.notched) full += `M${x + 4} 2a4 4 0 0 0 0 8z`;
  });
  return (
    <svg className={styles.steps} viewBox="0 0 69 12" aria-hidden="true">
      <path d={rings} />
      <path d={full} />
    </svg>
  );
}

/** One bar. It is drawn again when its own words, or its own place in the hand, are others. */
export const Row = memo(function Row(props: {
  readonly row: BarRow;
  readonly isInHand: boolean;
  /** Where the rail is entered by keys. */
  readonly isStop: boolean;
  readonly isMarked: boolean | undefined;
}) {
  const app = useAppItself();
  const { row, isInHand, isMarked } = props;
  return (
    <li className={styles.item}>
      {isMarked !== undefined && (
        <label className={styles.box}>
          <input
            type="checkbox"
            checked={isMarked}
            aria-label={RAIL.box(row.label)}
            onChange={() => app.do.mark([row.id], !isMarked)}
          />
        </label>
      )}
      <button
        type="button"
        data-bar={row.id}
        className={classes(styles.bar, row.isLook && styles.look, row.isDanger && styles.danger)}
        aria-pressed={isInHand}
        tabIndex={props.isStop ? 0 : -1}
        onClick={(event) => pick(app, row.id, event)}
      >
        <span className={styles.name}>{row.label}</span>
        <Steps row={row} />
        <span className={styles.state}>
          {row.isLook && <span aria-hidden="true">⚠</span>} {row.word}
        </span>
      </button>
    </li>
  );
});
