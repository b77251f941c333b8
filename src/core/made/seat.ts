import { type CopeResult, type EndFrame, endFrame, inFrame, nearest } from "../cope/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { maximise } from "../numeric/index.ts";
import {
  add,
  along,
  cross,
  dot,
  FORWARD,
  len,
  scale,
  square,
  sub,
  UP,
  unit,
  type Vec,
} from "../space/index.ts";
import { type Freedom, placesOf } from "../trestles/index.ts";
import { laidOver, nudged, type Pose, put } from "./pose.ts";
import type { MadeBar, Rim } from "./types.ts";

/** A bar as it is wanted now, with its ends as they are to be cut. */
export interface WantedBar {
  readonly bar: ResolvedBar;
  readonly copes: Readonly<Record<End, CopeResult>>;
}

/** What an end's notch is to be: left as it is, or cut again. */
export type Ends = Readonly<Record<End, "keep" | "cut">>;

/** A notched bar put where it suits best. */
export interface Seated {
  /** Greatest gap round each end that keeps its notch, square to what it lands on; 0 where nothing is open (mm). */
  readonly gap: Readonly<Partial<Record<End, number>>>;
  /** Tube beyond the long point that is wanted now, at each end (mm); negative: missing. */
  readonly ends: Readonly<Record<End, number>>;
  /** By how much it cannot be: into its hosts, aside of its place, or short where it is to be cut again (mm). */
  readonly fouls: number;
  /** Where it is put, from where it was made. */
  readonly pose: Pose;
}

const ENDS = ["A", "B"] as const;
/** Metal may stand this far in its host (mm): the design's, less than a file takes in one stroke. */
const ENTERS = 0.01;
/** Lines of a rim that the search begins with (one in so many degrees); those between are taken in where they are worse. */
const EVERY = 15;
const STEPS = 40;
/** Times that lines between those are taken in, and by how much they must be worse (mm). */
const ROUNDS = 5;
const NEAR = 1e-4;
/** A step that promises less than this is the last (mm). */
const SETTLED = 1e-5;
/** What a millimetre of fouling counts against one of gap; what the lesser end's gap and the least move count. */
const WEIGHT = { fouls: 100, lesser: 0.01, moved: 1e-4 };

/** A place of a rim, where it was made, and how it counts. */
interface Spot {
  readonly at: Vec;
  readonly end: End;
  readonly isOuter: boolean;
}

/** What a place of the bar would be off by (mm): more than 0, open or short; less than 0, into the metal or long. */
type Off = (p: Vec) => number;

/**
 * Puts a notched bar so that the greater end's gap is least while nothing enters what it lands on (mm).
 *
 * A rigid motion by a sequence of linear programmes: the distance of each place of the rims from what it is to land on
 * is taken as linear in a small motion, the greatest is made least, and the step is kept where the true one went down;
 * else the next is half as long. An end that is to be cut again must have metal all round beyond its new edge, and no
 * gap. Ends and corners stay within `freedom.aside` of where they are wanted, but along the bar.
 * Range: undefined where a programme finds no step at all. It goes downhill from the bar laid over its wanted place, and
 * does not look for another rest far from there.
 */
export function seated(
  made: MadeBar,
  wanted: WantedBar,
  how: Ends,
  freedom: Freedom,
  first: Pose = laidOver(made.line, wanted.bar.centreline),
): Seated | undefined {
  const off = { A: offAt(wanted, "A", how.A), B: offAt(wanted, "B", how.B) };
  const stays = asides(made, wanted.bar, freedom.aside);
  const all = ENDS.flatMap((end) => spotsOf(made, end, 1));
  const lever = Math.max(1, len(sub(made.line.finish, made.line.start)) / 2);
  const task = { how, off, stays, lever };
  let spots: readonly Spot[] = ENDS.flatMap((end) => spotsOf(made, end, EVERY));
  let pose = first;
  for (let round = 0; round < ROUNDS; round++) {
    const found = settle(spots, task, pose);
    if (!found) return undefined;
    pose = found.pose;
    const beside = all.filter((s) => exceeds(s, task, pose, found.now));
    if (beside.length === 0) break;
    spots = [...spots, ...beside];
  }
  const now = judged(all, task, pose);
  const gap = Object.fromEntries(
    ENDS.filter((e) => how[e] === "keep").map((e) => [e, Math.max(0, now.gap[e])]),
  );
  return {
    gap,
    ends: { A: beyond(made, wanted, "A", pose), B: beyond(made, wanted, "B", pose) },
    fouls: now.fouls,
    pose,
  };
}

interface Task {
  readonly how: Ends;
  readonly off: Readonly<Record<End, Off>>;
  readonly stays: readonly Stay[];
  /** Half the bar's length: turns count as lengths there (mm). */
  readonly lever: number;
}

/** Step by step to where no step makes the worst of these places better. */
function settle(
  spots: readonly Spot[],
  task: Task,
  first: Pose,
): { readonly pose: Pose; readonly now: Judged } | undefined {
  let pose = first;
  let now = judged(spots, task, pose);
  let trust = 8;
  for (let i = 0; i < STEPS && trust > SETTLED; i++) {
    const step = bestStep(spots, task, pose, trust);
    if (!step) return undefined;
    if (now.merit - step.merit < SETTLED) break;
    const next = judged(spots, task, step.pose);
    if (next.merit < now.merit - 1e-9) [pose, now, trust] = [step.pose, next, Math.min(trust * 2, 20)];
    else trust /= 3;
  }
  return { pose, now };
}

/** Whether a place of the rim, between the lines that were looked at, is worse than all of those. */
function exceeds(
  { at, end, isOuter }: Spot,
  { how, off }: Task,
  pose: Pose,
  { gap, fouls }: Judged,
): boolean {
  const d = off[end](put(pose, at));
  if (how[end] === "cut") return d > fouls + NEAR;
  return (isOuter && d > gap[end] + NEAR) || -d - ENTERS > fouls + NEAR;
}

/** Where the made bar's long point stands beyond the one wanted (mm), along the wanted end. */
function beyond(made: MadeBar, wanted: WantedBar, end: End, pose: Pose): number {
  const frame = frameOf(wanted, end);
  const tip = Math.max(
    ...spotsOf(made, end, 1).map(({ at }) => dot(sub(put(pose, at), frame.landing), frame.out)),
  );
  return tip + wanted.copes[end].cope.least;
}

const frameOf = ({ bar, copes }: WantedBar, end: End): EndFrame =>
  copes[end].joint?.frame ?? endFrame(bar.centreline, end);

function offAt(wanted: WantedBar, end: End, how: "keep" | "cut"): Off {
  const frame = frameOf(wanted, end);
  const { joint } = wanted.copes[end];
  const local = (p: Vec): Vec => inFrame(frame, sub(p, frame.landing));
  if (!joint) return (p) => -local(p)[2];
  if (how === "keep")
    return (p) => {
      const [x, y, z] = local(p);
      return nearest(joint.solids, x, y, z);
    };
  return (p) => {
    const [x, y, z] = local(p);
    const rho = Math.hypot(x, y);
    // Where nothing is met there is nothing to be cut to: any metal will do.
    const back = joint.back(rho, x / rho, y / rho);
    return Number.isNaN(back) ? Number.NEGATIVE_INFINITY : -back - z;
  };
}

/** Places of one end's edge, one in so many degrees; a sawn end's is flat. */
function spotsOf(made: MadeBar, end: End, every: number): readonly Spot[] {
  const frame = made.frames[end];
  const inCar = ([x, y, z]: Vec): Vec =>
    along(along(along(frame.landing, frame.zero, x), frame.quarter, y), frame.out, z);
  const { outer, bore } = made.rims[end] ?? sawnEdge(made, end);
  const picked = (places: readonly (Vec | undefined)[], isOuter: boolean): Spot[] =>
    places.flatMap((p, i) => (p && i % every === 0 ? [{ at: inCar(p), end, isOuter }] : []));
  return [...picked(outer, true), ...picked(bore, false)];
}

function sawnEdge({ tube, over }: MadeBar, end: End): Rim {
  const ring = (rho: number): Vec[] =>
    Array.from({ length: 360 }, (_, i) => {
      const phi = (i * Math.PI) / 180;
      return [rho * Math.cos(phi), rho * Math.sin(phi), over[end]];
    });
  return { outer: ring(tube.od / 2), bore: ring(tube.od / 2 - tube.wall) };
}

/** A place of the bar that must stay within so much of another, one way (mm). */
interface Stay {
  readonly at: Vec;
  readonly to: Vec;
  readonly way: Vec;
  readonly within: number;
}

function asides(made: MadeBar, bar: ResolvedBar, aside: number): readonly Stay[] {
  const [was, now] = [placesOf(made.line), placesOf(bar.centreline)];
  return now.flatMap((to, i) => {
    const at = was[i];
    if (!at || was.length !== now.length) return [];
    const isEnd = i === 0 || i === now.length - 1;
    const out = i === 0 ? sub(now[0] ?? to, now[1] ?? to) : sub(now[i] ?? to, now[i - 1] ?? to);
    const ways = isEnd ? squareTo(unit(out)) : AXES;
    return ways.map((way) => ({ at, to, way, within: aside }));
  });
}

const AXES: readonly Vec[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

function squareTo(dir: Vec): readonly Vec[] {
  const one = unit(square(Math.abs(dir[2]) < 0.9 ? UP : FORWARD, dir));
  return [one, cross(dir, one)];
}

interface Judged {
  readonly gap: Readonly<Record<End, number>>;
  readonly fouls: number;
  readonly merit: number;
}

function judged(spots: readonly Spot[], { how, off, stays }: Task, pose: Pose): Judged {
  const gap = { A: 0, B: 0 };
  let fouls = 0;
  for (const { at, end, isOuter } of spots) {
    const d = off[end](put(pose, at));
    if (how[end] === "cut") fouls = Math.max(fouls, d);
    else {
      if (isOuter) gap[end] = Math.max(gap[end], d);
      fouls = Math.max(fouls, -d - ENTERS);
    }
  }
  for (const { at, to, way, within } of stays)
    fouls = Math.max(fouls, Math.abs(dot(sub(put(pose, at), to), way)) - within);
  return { gap, fouls, merit: meritOf(Math.max(gap.A, gap.B), gap, fouls) };
}

const meritOf = (most: number, gap: Readonly<Record<End, number>>, fouls: number): number =>
  most + WEIGHT.lesser * (gap.A + gap.B) + WEIGHT.fouls * fouls;

/** Unknowns of a step: three ways and three turns (as lengths at the lever), the size of each, the gaps, the fouling. */
const N = 16;
const [GREATEST, GAP_A, GAP_B, FOULS] = [12, 13, 14, 15];

function bestStep(
  spots: readonly Spot[],
  { how, off, stays, lever }: Task,
  pose: Pose,
  trust: number,
): { readonly pose: Pose; readonly merit: number } | undefined {
  const rows: number[][] = [];
  const atLeast: number[] = [];
  const row = (parts: readonly (readonly [number, number])[], least: number): void => {
    const r = new Array<number>(N).fill(0);
    for (const [k, v] of parts) r[k] = v;
    rows.push(r);
    atLeast.push(least);
  };
  /** How a value at p changes with the motion, when it changes by g with p. */
  const motion = (p: Vec, g: Vec, sign: number): (readonly [number, number])[] => {
    const spin = cross(sub(p, pose.to), g);
    return [0, 1, 2].flatMap((k) => [
      [k, sign * (g[k as 0] ?? 0)] as const,
      [3 + k, (sign * (spin[k as 0] ?? 0)) / lever] as const,
    ]);
  };
  for (const { at, end, isOuter } of spots) {
    const p = put(pose, at);
    const d = off[end](p);
    if (!Number.isFinite(d)) continue;
    const g = slope(off[end], p, d);
    if (how[end] === "cut") row([...motion(p, g, -1), [FOULS, 1]], d);
    else {
      row([...motion(p, g, 1), [FOULS, 1]], -ENTERS - d);
      if (isOuter) row([...motion(p, g, -1), [end === "A" ? GAP_A : GAP_B, 1]], d);
    }
  }
  for (const { at, to, way, within } of stays) {
    const p = put(pose, at);
    const d = dot(sub(p, to), way);
    row([...motion(p, way, -1), [FOULS, 1]], d - within);
    row([...motion(p, way, 1), [FOULS, 1]], -d - within);
  }
  for (const k of [GAP_A, GAP_B]) {
    row([[k, 1]], 0);
    row(
      [
        [GREATEST, 1],
        [k, -1],
      ],
      0,
    );
  }
  row([[FOULS, 1]], 0);
  for (let k = 0; k < 6; k++)
    for (const sign of [1, -1])
      row(
        [
          [k, sign],
          [6 + k, 1],
        ],
        0,
      );
  const c = new Array<number>(N).fill(0);
  for (let k = 6; k < 12; k++) c[k] = -WEIGHT.moved;
  [c[GREATEST], c[GAP_A], c[GAP_B], c[FOULS]] = [-1, -WEIGHT.lesser, -WEIGHT.lesser, -WEIGHT.fouls];
  const box = c.map((_, k) => (k < 12 ? trust : 1e5));
  const solved = maximise({ c, rows, atLeast, box });
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
  const by = (k: 0 | 1 | 2): number => {
    const there = of(add(p, scale(AXES[k] ?? UP, h)));
    return Number.isFinite(there) ? (there - here) / h : 0;
  };
  return [by(0), by(1), by(2)];
}
