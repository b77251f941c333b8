import { BENDER_PICTURES } from "../../../words/index.ts";
import type { Write } from "../../kit/index.ts";
import type { BarResult } from "../../model/compute/index.ts";
import styles from "./marks-picture.module.css";

/** The straight tube with its marks, the end fed first on the left; reduced along its length, not true size. */
export function MarksPicture(props: {
  readonly result: BarResult;
  /** The tube as it is sawn, where it is. */
  readonly sawn?: number | undefined;
  readonly now: number | undefined;
  readonly write: Write;
}) {
  const { result, sawn, now, write } = props;
  const { bend, bar } = result;
  const lead = bar.fromEnd;
  const length = sawn ?? bend.blank + bend.trim.A + bend.trim.B;
  const bends = lead === "A" ? bend.bends : [...bend.bends].reverse();
  const factor = bar.die?.arcFactor ?? 1;
  const shift = bar.die?.mark ?? 0;
  const x = (mm: number): number => 40 + (mm / length) * 920;
  const label = BENDER_PICTURES.marks(
    write.length(length),
    lead,
    bends.map((b) => BENDER_PICTURES.mark(b.n, write.length(lead === "A" ? b.mark : b.markB))),
  );
  return (
    <figure className={styles.picture}>
      <svg viewBox="0 0 1000 250" role="img" aria-label={label}>
        {bends.map((b) => {
          const mark = lead === "A" ? b.mark : b.markB;
          return (
            <rect
              key={b.n}
              className={styles.taken}
              x={x(mark - shift)}
              y={96}
              width={x(factor * b.clr * b.angle) - x(0)}
              height={48}
            />
          );
        })}
        <rect className={styles.tube} x={x(0)} y={96} width={920} height={48} />
        <path className={styles.axis} d="M20 120H980" />
        <text className={styles.endName} x={18} y={134} textAnchor="middle">
          {lead}
        </text>
        <text className={styles.endName} x={984} y={134} textAnchor="middle">
          {lead === "A" ? "B" : "A"}
        </text>
        {bends.map((b, i) => {
          const mark = lead === "A" ? b.mark : b.markB;
          const isNow = i === now;
          return (
            <g key={b.n} className={isNow ? `${styles.mark} ${styles.now}` : styles.mark}>
              <path d={`M${x(mark)} 72V150`} />
              <circle cx={x(mark)} cy={50} r={22} />
              <text x={x(mark)} y={60} textAnchor="middle">
                {b.n}
              </text>
              {isNow && (
                <>
                  <path
                    className={styles.dimension}
                    d={`M${x(0)} 150V200M${x(mark)} 150V200M${x(0)} 190H${x(mark)}`}
                  />
                  <path className={styles.head} d={`M${x(mark)} 190l-18 -6v12z`} />
                  <text className={styles.length} x={(x(0) + x(mark)) / 2} y={232} textAnchor="middle">
                    {write.length(mark)}
                  </text>
                </>
              )}
            </g>
          );
        })}
        {now === undefined && (
          <>
            <path
              className={styles.dimension}
              d={`M${x(0)} 150V200M${x(length)} 150V200M${x(0)} 190H${x(length)}`}
            />
            <path className={styles.head} d={`M${x(length)} 190l-18 -6v12zM${x(0)} 190l18 -6v12z`} />
            <text className={styles.length} x={500} y={232} textAnchor="middle">
              {write.length(length)}
            </text>
          </>
        )}
      </svg>
      <figcaption>{BENDER_PICTURES.marksNote}</figcaption>
    </figure>
  );
}
