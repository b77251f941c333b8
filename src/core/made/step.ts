import type { End } from "../job/types.ts";
import { maximise } from "../numeric/index.ts";
import { dot, scale, sub, type Vec } from "../space/index.ts";
import { nudged, type Pose, put } from "./pose.ts";
import type { Ends, Off, Spot, Stay } from "./spots.ts";

/** Metal may stand this far in its host (mm): the design's, less than a file takes in one stroke. */
export const ENTERS = 0.01;
const STEPS = 40;
/** A step that promises less than this is the last (mm). */
const SETTLED = 5e-5;
/** What a millimetre of fouling counts against one of gap; what the lesser end's gap and the least move count. */
const WEIGHT = { fouls: 100, lesser: 0.01, moved: 1e-4 };

export interface Task {
  readonly how: Ends;
  readonly off: Readonly<Record<End, Off>>;
  readonly stays: readonly Stay[];
  /** Half the bar's length: turns count as lengths there (mm). */
  readonly lever: number;
}

export interface Judged {
  readonly gap: Readonly<Record<End, number>>;
  readonly fouls: number;
  readonly merit: number;
  /** What each place is off by, in the order of the places. */
  readonly offs: readonly number[];
}

/** Step by step to where no step makes the worst of these places better. */
export function settle(
  spots: readonly Spot[],
  task: Task,
  first: Pose,
): { readonly pose: Pose; readonly now: Judged } | undefined {
  let pose = first;
  let now = judged(spots, task, pose);
  let trust = 8;
  for (let i = 0; i < STEPS && trust > SETTLED; i++) {
    const step = bestStep(spots, task, pose, trust, now.offs);
    if (!step) return undefined;
    if (now.merit - step.merit < SETTLED) break;
    const next = judged(spots, task, step.pose);
    if (next.merit < now.merit - 1e-9) [pose, now, trust] = [step.pose, next, Math.min(trust * 2, 20)];
    else trust /= 3;
  }
  return { pose, now };
}

export function judged(spots: readonly Spot[], { how, off, stays }: Task, pose: Pose): Judged {
  const gap = { A: 0, B: 0 };
  let fouls = 0;
  const offs = spots.map(({ at, end }) => off[end](put(pose, at)));
  spots.forEach(({ end, isOuter }, i) => {
    const d = offs[i] ?? 0;
    if (how[end] === "cut") fouls = Math.max(fouls, d);
    else {
      if (isOuter) gap[end] = Math.max(gap[end], d);
      fouls = Math.max(fouls, -d - ENTERS);
    }
  });
  for (const { at, to, way, within } of stays)
    fouls = Math.max(fouls, Math.abs(dot(sub(put(pose, at), to), way)) - within);
  return { gap, fouls, merit: meritOf(Math.max(gap.A, gap.B), gap, fouls), offs };
}

const meritOf = (most: number, gap: Readonly<Record<End, number>>, fouls: number): number =>
  most + WEIGHT.lesser * (gap.A + gap.B) + WEIGHT.fouls * fouls;

/** Unknowns of a step: three ways and three turns (as lengths at the lever), the size of each, the gaps, the fouling. */
const N = 16;
const [GREATEST, GAP_A, GAP_B, FOULS] = [12, 13, 14, 15] as const;

/** The rows that every step has: the gaps and their greatest, the fouling, and how large each way and turn is. */
const ALWAYS: readonly (readonly (readonly [number, number])[])[] = [
  ...[GAP_A, GAP_B].flatMap((k) => [[[k, 1] as const], [[GREATEST, 1] as const, [k, -1] as const]]),
  [[FOULS, 1] as const],
  ...[0, 1, 2, 3, 4, 5].flatMap((k) => [1, -1].map((sign) => [[k, sign] as const, [6 + k, 1] as const])),
];

/** Aims: the greater gap least, and the fouling; then the lesser gap, then no more motion than that needs. */
const C = Array.from({ length: N }, (_, k) => (k >= 6 && k < 12 ? -WEIGHT.moved : 0));
[C[GREATEST], C[GAP_A], C[GAP_B], C[FOULS]] = [-1, -WEIGHT.lesser, -WEIGHT.lesser, -WEIGHT.fouls];

/**
 * Of those, the rows that hold where the bar stays as it is and nothing is open: the search begins there, and takes in
 * what is. (No gap, so no greatest one; no fouling; every way and turn and its size 0.)
 */
const STILL = ALWAYS.flatMap((_, i) => (i === 3 ? [] : [i]));

/** Rows of a programme, laid end to end as they are found. */
class Rows {
  readonly rows: Float64Array;
  readonly atLeast: number[] = [];
  constructor(most: number) {
    this.rows = new Float64Array(most * N);
  }
  /** `other`·its unknown + sign × (how a value at p changes by g with its place, as the bar moves about `pivot`) ≥ least. */
  motion(p: Vec, pivot: Vec, g: Vec, sign: number, lever: number, other: number, least: number): void {
    const at = this.atLeast.length * N;
    const [x, y, z] = sub(p, pivot);
    const { rows } = this;
    [rows[at], rows[at + 1], rows[at + 2]] = [sign * g[0], sign * g[1], sign * g[2]];
    const s = sign / lever;
    rows[at + 3] = s * (y * g[2] - z * g[1]);
    rows[at + 4] = s * (z * g[0] - x * g[2]);
    rows[at + 5] = s * (x * g[1] - y * g[0]);
    rows[at + other] = 1;
    this.atLeast.push(least);
  }
  always(): void {
    for (const row of ALWAYS) {
      const at = this.atLeast.length * N;
      for (const [k, v] of row) this.rows[at + k] = v;
      this.atLeast.push(0);
    }
  }
}

function bestStep(
  spots: readonly Spot[],
  { how, off, stays, lever }: Task,
  pose: Pose,
  trust: number,
  offs: readonly number[],
): { readonly pose: Pose; readonly merit: number } | undefined {
  const found = new Rows(2 * spots.length + 2 * stays.length + ALWAYS.length);
  for (const [i, { at, end, isOuter }] of spots.entries()) {
    const p = put(pose, at);
    const d = offs[i] ?? Number.NaN;
    if (!Number.isFinite(d)) continue;
    const g = slope(off[end], p, d);
    if (how[end] === "cut") found.motion(p, pose.to, g, -1, lever, FOULS, d);
    else {
      found.motion(p, pose.to, g, 1, lever, FOULS, -ENTERS - d);
      if (isOuter) found.motion(p, pose.to, g, -1, lever, end === "A" ? GAP_A : GAP_B, d);
    }
  }
  for (const { at, to, way, within } of stays) {
    const p = put(pose, at);
    const d = dot(sub(p, to), way);
    found.motion(p, pose.to, way, -1, lever, FOULS, d - within);
    found.motion(p, pose.to, way, 1, lever, FOULS, -d - within);
  }
  const from = STILL.map((i) => found.atLeast.length + i);
  found.always();
  const { atLeast } = found;
  const rows = found.rows.subarray(0, atLeast.length * N);
  const solved = maximise({ c: C, rows, atLeast, box: C.map((_, k) => (k < 12 ? trust : 1e5)), from });
  if (!solved.ok) return undefined;
  const [x0 = 0, x1 = 0, x2 = 0, y0 = 0, y1 = 0, y2 = 0] = solved.x;
  const at = (k: number): number => solved.x[k] ?? 0;
  return {
    pose: nudged(pose, [x0, x1, x2], scale([y0, y1, y2], 1 / lever)),
    merit: meritOf(at(GREATEST), { A: at(GAP_A), B: at(GAP_B) }, at(FOULS)),
  };
}

/** How a value changes with its place, per millimetre each way. */
function slope(of: Off, p: Vec, here: number): Vec {
  const h = 1e-4;
  const [x, y, z] = p;
  const by = (there: number): number => (Number.isFinite(there) ? (there - here) / h : 0);
  return [by(of([x + h, y, z])), by(of([x, y + h, z])), by(of([x, y, z + h]))];
}
