import type { SawFit } from "../../../core/cope/index.ts";
import { GAP } from "../../../words/index.ts";
import type { Write } from "../../kit/index.ts";
import { classes, parts } from "../../kit/index.ts";
import styles from "./gap-picture.module.css";

/** The gap round the joint, unrolled from the zero line; what is accepted is the dashed line. */
export function GapPicture(props: {
  readonly saw: SawFit;
  readonly accepted: number;
  readonly write: Write;
}) {
  const { saw, accepted, write } = props;
  const top = Math.max(saw.gap, accepted) * 1.2;
  const x = (phi: number): number => 60 + (phi / 360) * 480;
  const y = (gap: number): number => 190 - (gap / top) * 150;
  const runs: string[] = [];
  let run: string[] = [];
  let from = 0;
  // round to the first again
  for (const [i, gap] of [...saw.gaps, ...saw.gaps.slice(0, 1)].entries()) {
    if (!Number.isNaN(gap)) {
      if (run.length === 0) from = i;
      run.push(`${x(i).toFixed(1)} ${y(gap).toFixed(1)}`);
    }
    if ((Number.isNaN(gap) || i === 360) && run.length > 0) {
      const to = Number.isNaN(gap) ? i - 1 : i;
      runs.push(`M${x(from).toFixed(1)} 190L${run.join("L")}L${x(to).toFixed(1)} 190Z`);
      run = [];
    }
  }
  return (
    <figure className={classes(parts.figure, styles.gap)}>
      <svg
        viewBox="0 0 600 240"
        role="img"
        aria-label={GAP.label({ most: saw.gap, at: saw.gapAt, accepted }, write)}
      >
        {runs.map((d) => (
          <path key={d} className={styles.run} d={d} />
        ))}
        <path className={styles.frame} d="M60 40H540V190H60Z" />
        <path className={styles.accepted} d={`M60 ${y(accepted)}H540`} />
        <text x={545} y={y(accepted) + 6} className={styles.small}>
          {GAP.accepted}
        </text>
        {[0, 90, 180, 270, 360].map((phi) => (
          <text key={phi} x={x(phi)} y={216} textAnchor="middle">
            {phi}°
          </text>
        ))}
        <path className={styles.dimension} d={`M${x(saw.gapAt)} ${y(saw.gap)}V30`} />
        <text
          x={Math.min(460, Math.max(140, x(saw.gapAt)))}
          y={24}
          textAnchor="middle"
          className={styles.strong}
        >
          {GAP.at(saw.gap, saw.gapAt, write)}
        </text>
      </svg>
      <figcaption>{GAP.caption}</figcaption>
    </figure>
  );
}
