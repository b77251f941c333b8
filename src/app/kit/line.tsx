import type { Progress } from "../../core/job/index.ts";
import { classes } from "./classes.ts";
import styles from "./line.module.css";
import { progressLine } from "./progress.ts";

/** A bar's line as the drawing shows it: dotted, dashed, dots at its joints, solid. */
export function Line({ progress }: { readonly progress: Progress }) {
  const line = progressLine(progress);
  const joints = line === "tacked" || line === "solid";
  return (
    <svg className={classes(styles.line, styles[line])} viewBox="0 0 64 12" aria-hidden="true">
      <path d="M6 6H58" />
      {joints && [6, 58].map((x) => <circle key={x} cx={x} cy={6} r={4} />)}
    </svg>
  );
}
