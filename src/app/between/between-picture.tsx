import { MEASURED } from "../../words/index.ts";
import type { Write } from "../kit/index.ts";
import { mmOf, retyped } from "../kit/index.ts";
import styles from "./between-picture.module.css";
import type { TwoTubes } from "./readings.ts";

type Flat = readonly [number, number];

/** Which angle is read where: the string, both tubes, their chalked halves on top. Not to scale along the string. */
export function BetweenPicture({ readings, write }: { readonly readings: TwoTubes; readonly write: Write }) {
  const widths = [readings.od1, readings.od2, readings.od].map((od) => mmOf(od) ?? 40);
  const most = Math.max(...widths, 1);
  const wide = (mm: number): number => 14 + 30 * (mm / most);
  const [w1, w2, w] = widths.map(wide) as [number, number, number];
  const [x1, x2, y] = [130, 470, 150] as const;
  /** Toward the chalk, as the picture shows it. */
  const up = (reading: number, inward: 1 | -1): Flat => {
    const a = (reading * Math.PI) / 180;
    return [inward * Math.cos(a), -Math.sin(a)];
  };
  const one = { n: 1, x: x1, w: w1, inward: 1, reading: readings.reading1 } as const;
  const two = { n: 2, x: x2, w: w2, inward: -1, reading: readings.reading2 } as const;
  const tape = readings.tape === "over";
  const half = (t: typeof one | typeof two): number =>
    t.w / 2 / Math.max(0.2, Math.sin((t.reading * Math.PI) / 180));
  const [half1, half2] = [half(one), half(two)];
  const [from, to] = tape ? [x1 - half1, x2 + half2] : [x1 + half1, x2 - half2];
  const distance =
    typeof readings.distance === "string"
      ? retyped(readings.distance, "mm").text
      : write.length(mmOf(readings.distance) ?? 0);
  return (
    <figure className={styles.picture}>
      <svg
        viewBox="0 0 600 300"
        role="img"
        aria-label={MEASURED.picture(readings.reading1, readings.reading2)}
      >
        <path className={styles.newBar} d={`M${x1 + half1} ${y}H${x2 - half2}`} strokeWidth={w} />
        <path className={styles.newBarIn} d={`M${x1 + half1} ${y}H${x2 - half2}`} strokeWidth={w - 4} />
        {[one, two].map((t) => {
          const [dx, dy] = up(t.reading, t.inward);
          const d = `M${t.x - 110 * dx} ${y - 110 * dy}L${t.x + 110 * dx} ${y + 110 * dy}`;
          const chalk = `M${t.x + 34 * dx} ${y + 34 * dy}L${t.x + 104 * dx} ${y + 104 * dy}`;
          const r = 62;
          const arcEnd: Flat = [t.x + r * dx, y + r * dy];
          const middle = ((t.reading / 2) * Math.PI) / 180;
          return (
            <g key={t.n}>
              <path className={styles.host} d={d} strokeWidth={t.w} />
              <path className={styles.hostIn} d={d} strokeWidth={t.w - 4} />
              <path className={styles.chalk} d={chalk} />
              <path
                className={styles.angle}
                d={`M${t.x + t.inward * r} ${y}A${r} ${r} 0 0 ${t.inward === 1 ? 0 : 1} ${arcEnd[0].toFixed(1)} ${arcEnd[1].toFixed(1)}`}
              />
              <text
                className={styles.angleText}
                x={t.x + t.inward * 96 * Math.cos(middle)}
                y={y - 96 * Math.sin(middle) + 6}
                textAnchor="middle"
              >
                {t.reading}°
              </text>
              <text x={t.x - t.inward * 66} y={y - 60} textAnchor="middle">
                {t.n}
              </text>
            </g>
          );
        })}
        <path className={styles.string} d={`M${x1 - 40} ${y}H${x2 + 40}`} />
        <path className={styles.dimension} d={`M${from} ${y + 8}V276M${to} ${y + 8}V276M${from} 266H${to}`} />
        <path className={styles.head} d={`M${from} 266l16 -5v10zM${to} 266l-16 -5v10z`} />
        <text className={styles.length} x={(from + to) / 2} y={258} textAnchor="middle">
          {distance}
        </text>
      </svg>
      <figcaption>{MEASURED.pictureNote}</figcaption>
    </figure>
  );
}
