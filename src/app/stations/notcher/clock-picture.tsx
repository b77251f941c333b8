import type { Cope } from "../../../core/cope/index.ts";
import { deg, wrapPi } from "../../../core/numeric/index.ts";
import { CLOCK, sayHalfLine, sayZeroLine } from "../../../words/index.ts";
import type { Write } from "../../kit/index.ts";
import { classes, parts } from "../../kit/index.ts";
import styles from "./clock-picture.module.css";

const R = 90;

/** The cut end as one looks at it, the zero line on top; φ grows counter-clockwise. */
export function ClockPicture(props: {
  readonly cope: Cope;
  readonly clock: number | undefined;
  readonly offset?: number | undefined;
  readonly write: Write;
}) {
  const { cope, clock, offset, write } = props;
  const bore = (R * cope.boreRadius) / cope.outerRadius;
  const at = (r: number, phi: number): readonly [number, number] => [-r * Math.sin(phi), -r * Math.cos(phi)];
  const p = (r: number, phi: number): string =>
    at(r, phi)
      .map((c) => c.toFixed(1))
      .join(" ");
  const phi = clock === undefined ? undefined : wrapPi(clock);
  const isFlat = cope.kind !== "on";
  const name = isFlat ? CLOCK.long : CLOCK.heel;
  const big = phi !== undefined && Math.abs(phi) > 0.02;
  const shift =
    phi === undefined || offset === undefined || Math.abs(offset) < 0.005
      ? 0
      : Math.max(-70, Math.min(70, (offset * R) / cope.outerRadius));
  const label = CLOCK.label(
    phi === undefined ? undefined : { name, deg: Math.abs(deg(phi)), counter: phi >= 0 },
    write,
  );
  return (
    <figure className={classes(parts.figure, styles.clock)}>
      <svg viewBox="-190 -170 380 340" role="img" aria-label={label}>
        <circle className={styles.wall} r={R} />
        <circle className={styles.bore} r={bore} />
        {Array.from({ length: 12 }, (_, k) => (k * Math.PI) / 6).map((a) => (
          <path
            key={a}
            className={styles.tick}
            d={`M${p(R, a)}L${p(R + (Math.round(deg(a)) % 90 === 0 ? 12 : 6), a)}`}
          />
        ))}
        <path className={styles.zero} d={`M0 ${-R}l-9 -20h18z`} />
        <text x={0} y={-R - 28} textAnchor="middle">
          {CLOCK.zero}
        </text>
        <text x={0} y={R + 34} textAnchor="middle" className={styles.small}>
          {sayHalfLine(cope.zeroLine)}
        </text>
        {phi !== undefined && (
          <>
            {!isFlat && (
              <path
                className={styles.sawAxis}
                d={`M${p(R + 50, phi)}L${p(R + 50, phi + Math.PI)}`}
                transform={
                  shift === 0
                    ? undefined
                    : `translate(${at(shift, phi + Math.PI / 2)
                        .map((c) => c.toFixed(1))
                        .join(" ")})`
                }
              />
            )}
            {big && (
              <path
                className={styles.turned}
                d={`M${p(R * 0.55, 0)}A${R * 0.55} ${R * 0.55} 0 0 ${phi > 0 ? 0 : 1} ${p(R * 0.55, phi)}`}
              />
            )}
            <path className={styles.heel} d={`M0 0L${p(R - 4, phi)}`} />
            <circle className={styles.heelDot} cx={at(R, phi)[0]} cy={at(R, phi)[1]} r={9} />
            {(() => {
              const [x, y] = at(R + 24, phi);
              return (
                <text
                  x={x}
                  y={y - 10}
                  className={styles.heelName}
                  textAnchor={Math.abs(x) < 40 ? "middle" : x > 0 ? "start" : "end"}
                  dy={Math.abs(x) < 40 && y < 0 ? -24 : 0}
                >
                  {name.toUpperCase()}
                </text>
              );
            })()}
          </>
        )}
      </svg>
      <figcaption>{CLOCK.caption(sayZeroLine(cope.zeroLine))}</figcaption>
    </figure>
  );
}
