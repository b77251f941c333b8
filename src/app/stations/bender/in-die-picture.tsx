import type { InDie, Seen } from "./in-die.ts";
import styles from "./in-die-picture.module.css";

/** How steeply the operator looks down on the bender (radians). */
const DOWN = (34 * Math.PI) / 180;

type Flat = readonly [number, number];

/** Seen from behind the tail, looking toward the die and somewhat down: what is ahead stands higher on the picture. */
const flat = ([right, ahead, up]: Seen): Flat => [right, -(ahead * Math.sin(DOWN) + up * Math.cos(DOWN))];

/** The tail is cut short behind the die, or the bend itself would be too small to see (mm). */
const TAIL = 420;

/** The tube as it is in the bender: before the step (dashed) and after it. */
export function InDiePicture(props: {
  readonly before?: InDie;
  readonly after: InDie;
  readonly label: string;
}) {
  const { before, after, label } = props;
  const drawn = shortened(after);
  const was = before && shortened(before);
  const points = [...(was?.line ?? []), ...drawn.line].map(flat);
  const { clr, od, die } = after;
  const centre = flat(die);
  points.push(
    [centre[0] - clr, centre[1] - clr * Math.sin(DOWN)],
    [centre[0] + clr, centre[1] + clr * Math.sin(DOWN)],
  );
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const pad = od * 1.6;
  const box = [
    Math.min(...xs) - pad,
    Math.min(...ys) - pad,
    Math.max(...xs) - Math.min(...xs) + 2 * pad,
    Math.max(...ys) - Math.min(...ys) + 2 * pad,
  ] as const;
  const path = pathOf(drawn.line);
  const lead = flat(drawn.lead);
  const tail = flat(drawn.tail);
  const size = Math.max(box[2], box[3]) / 26;
  return (
    <figure className={styles.picture}>
      <svg viewBox={box.join(" ")} role="img" aria-label={label}>
        <ellipse
          className={styles.die}
          cx={centre[0]}
          cy={centre[1]}
          rx={clr - od / 2}
          ry={(clr - od / 2) * Math.sin(DOWN)}
        />
        <path
          className={styles.dieAxis}
          d={`M${centre[0] - clr * 0.2} ${centre[1]}h${clr * 0.4}M${centre[0]} ${centre[1] - clr * 0.12}v${clr * 0.24}`}
        />
        <path className={styles.tubeEdge} d={path} strokeWidth={od} />
        <path className={styles.tubeBody} d={path} strokeWidth={od * 0.86} />
        <path className={styles.tubeAxis} d={path} />
        {was && <path className={styles.was} d={pathOf(was.line)} strokeWidth={od * 0.12} />}
        <path className={styles.mark} d={`M${-od * 0.9} 0H${od * 0.9}`} />
        <text x={lead[0]} y={lead[1] - od * 0.8} textAnchor="middle">
          {drawn.names[0]}
        </text>
        <text x={tail[0]} y={tail[1] + od * 0.6 + size} textAnchor="middle">
          {drawn.names[1]}
        </text>
      </svg>
      <figcaption>{label}</figcaption>
    </figure>
  );
}

const pathOf = (line: readonly Seen[]): string =>
  `M${line
    .map(flat)
    .map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`)
    .join("L")}`;

/** The tube with its tail cut short, and a long straight ahead too. */
function shortened({ line, names }: InDie) {
  const ahead = line.length === 2 ? 2 * TAIL : Number.POSITIVE_INFINITY;
  const [first = ORIGIN] = line;
  const lead: Seen = [first[0], Math.min(first[1], ahead), first[2]];
  const last = line[line.length - 1] ?? ORIGIN;
  const tail: Seen = [last[0], Math.max(last[1], -TAIL), last[2]];
  return { line: [lead, ...line.slice(1, -1), tail], lead, tail, names };
}

const ORIGIN: Seen = [0, 0, 0];
