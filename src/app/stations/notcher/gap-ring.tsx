import { deg } from "../../../core/numeric/index.ts";
import { RING } from "../../../words/index.ts";
import styles from "./gap-ring.module.css";
import { MARKS } from "./gaps.ts";

const C = 150;
const R = 84;

/** The cut end with its marks, and the gap read at each. Counter-clockwise from the zero line, seen looking at the cut end. */
export function GapRing(props: {
  readonly says: (phi: number) => string;
  /** φ of the heel (radians). */
  readonly clock: number;
  readonly off: ReadonlySet<number>;
}) {
  const at = (phi: number, r: number): readonly [number, number] => {
    const a = (phi * Math.PI) / 180;
    return [C - r * Math.sin(a), C - r * Math.cos(a)];
  };
  const heel = at(deg(props.clock), R - 22);
  const label = RING.label(MARKS.map((phi) => [phi, props.says(phi)]));
  return (
    <figure className={styles.ring}>
      <svg viewBox="-24 10 348 280" role="img" aria-label={label}>
        <circle cx={C} cy={C} r={R} className={styles.wall} />
        <circle cx={C} cy={C} r={R - 12} className={styles.bore} />
        <path d={`M${C} ${C - R - 4}V${C - R + 16}`} className={styles.zero} />
        <text x={heel[0]} y={heel[1] + 5} textAnchor="middle" className={styles.heel}>
          {RING.heel}
        </text>
        {MARKS.map((phi) => {
          const [x1, y1] = at(phi, R);
          const [x2, y2] = at(phi, R + 10);
          const [x, y] = at(phi, R + 18);
          return (
            <g key={phi} className={props.off.has(phi) ? styles.off : undefined}>
              <path d={`M${x1} ${y1}L${x2} ${y2}`} className={styles.tick} />
              <text x={x} y={y + 5} textAnchor={Math.abs(x - C) < 5 ? "middle" : x < C ? "end" : "start"}>
                {props.says(phi)}
              </text>
            </g>
          );
        })}
      </svg>
      <figcaption>{RING.caption}</figcaption>
    </figure>
  );
}
