// biome-ignore-all lint/style/noNonNullAssertion: modelOf numbers points and unknowns: slots, known and network.at have an entry a point, the covariance a line an unknown, and an equation speaks of those points alone
import type { Reading, TapeReading } from "../job/reading-types.ts";
import { NO_LENGTH } from "../numeric/index.ts";
import { along, dot, FORWARD, LEFT, len, neg, ORIGIN, scale, sub, type Vec } from "../space/index.ts";
import { type Attitude, level } from "./attitude.ts";
import { type End, markOf } from "./ends.ts";
import type { Surface } from "./surface.ts";

/** What an equation sees: every point's place, and which way is up. */
export interface Network {
  readonly at: readonly Vec[];
  readonly attitude: Attitude;
}

/** The value that the points give, and how it moves with each point's place and with the lean along and across. */
export interface Observed {
  readonly value: number;
  readonly by: readonly (readonly [point: number, Vec])[];
  readonly byLean?: readonly [number, number];
}

/** One thing that was read, or is known beforehand, as an equation: mm, or radians for angles. */
export interface Equation {
  /** Index in the job's readings; undefined for a coordinate known beforehand. */
  readonly reading?: number;
  readonly read: number;
  readonly sd: number;
  readonly isAngle: boolean;
  /** Of a straight distance: what of the tape was held at its first end (mm); absent where it is no tape. */
  readonly mark?: number;
  /** Points that it speaks of. */
  readonly points: readonly number[];
  readonly observe: (network: Network) => Observed;
  /** Where point p may be as far as this equation knows, the other points being where the network has them. */
  readonly surfaces: (p: number, network: Network) => readonly Surface[];
}

export const AXES = { fore: 0, out: 1, height: 2 } as const;

const axis = (i: number): Vec => [i === 0 ? 1 : 0, i === 1 ? 1 : 0, i === 2 ? 1 : 0];

type Base = Pick<Equation, "read" | "sd"> & { readonly reading?: number };

/** A coordinate known beforehand, with its error. */
export const known = (base: Base, p: number, i: 0 | 1 | 2): Equation => ({
  ...base,
  isAngle: false,
  points: [p],
  observe: ({ at }) => ({ value: at[p]![i], by: [[p, axis(i)]] }),
  surfaces: () => [{ kind: "plane", normal: axis(i), offset: base.read }],
});

/**
 * The straight distance between two ends, each where the tape's mark lay, as the tape reads it: `mark` of it was held at
 * the first end, so that it reads as much more.
 */
export function tape(base: Base, ends: readonly [End, End], mark = 0): Equation {
  const points = ends.flatMap((end) => (end.kind === "point" ? [end.point] : []));
  const centre = (end: End, at: readonly Vec[]): Vec => (end.kind === "point" ? at[end.point]! : end.centre);
  const held = (end: End, other: Vec, at: readonly Vec[]): Vec =>
    end.kind === "point" ? at[end.point]! : markOf(end, other);
  return {
    ...base,
    isAngle: false,
    mark,
    points,
    observe: ({ at }) => {
      const [p, q] = ends;
      const v = sub(held(q, centre(p, at), at), held(p, centre(q, at), at));
      const length = len(v);
      // The mark is the nearest or the farthest of its section, so that it adds nothing of its own (envelope).
      const dir = length > NO_LENGTH ? scale(v, 1 / length) : ORIGIN;
      const by: (readonly [number, Vec])[] = [];
      if (p.kind === "point") by.push([p.point, neg(dir)]);
      if (q.kind === "point") by.push([q.point, dir]);
      return { value: length + mark, by };
    },
    surfaces: (p, { at }) => {
      const other = ends[0].kind === "point" && ends[0].point === p ? ends[1] : ends[0];
      const reach = other.kind === "section" ? other.reach : 0;
      return [{ kind: "sphere", centre: centre(other, at), radius: Math.max(base.read - mark - reach, 0) }];
    },
  };
}

/** A point's height, measured plumb from the level floor through the origin. */
export const height = (base: Base, p: number): Equation => ({
  ...base,
  isAngle: false,
  points: [p],
  observe: ({ at, attitude }) => ({
    value: dot(at[p]!, attitude.up),
    by: [[p, attitude.up]],
    byLean: [dot(at[p]!, attitude.by[0]), dot(at[p]!, attitude.by[1])],
  }),
  surfaces: (_, { attitude }) => [{ kind: "plane", normal: attitude.up, offset: base.read }],
});

/** How far q stands from p along a direction that may turn with the lean. */
function apart(
  base: Base,
  [p, q]: readonly [number, number],
  direction: (attitude: Attitude) => { readonly dir: Vec; readonly by: readonly [Vec, Vec] },
): Equation {
  return {
    ...base,
    isAngle: false,
    points: [p, q],
    observe: ({ at, attitude }) => {
      const v = sub(at[q]!, at[p]!);
      const { dir, by } = direction(attitude);
      return {
        value: dot(v, dir),
        by: [
          [p, neg(dir)],
          [q, dir],
        ],
        byLean: [dot(v, by[0]), dot(v, by[1])],
      };
    },
    surfaces: (point, { at, attitude }) => {
      const { dir } = direction(attitude);
      const other = at[point === p ? q : p]!;
      return [{ kind: "plane", normal: dir, offset: dot(other, dir) }];
    },
  };
}

/** Two points at one height. */
export const sameHeight = (base: Base, pair: readonly [number, number]): Equation =>
  apart(base, pair, (attitude) => ({ dir: attitude.up, by: attitude.by }));

/** One point plumb over the other: nothing between them forward, nothing to the left, both square to up. */
export const plumb = (base: Base, pair: readonly [number, number]): readonly [Equation, Equation] => [
  apart(base, pair, (attitude) => level(FORWARD, attitude)),
  apart(base, pair, (attitude) => level(LEFT, attitude)),
];

/** Below this share of its length in plan a line's slope has no direction to turn to. */
const UPRIGHT = 1e-3;

/** The angle of the line from p to q, up from level (radians). `between` is the tape along it, if one was read. */
export function slope(base: Base, [p, q]: readonly [number, number], between?: number): Equation {
  return {
    ...base,
    isAngle: true,
    points: [p, q],
    observe: ({ at, attitude }) => {
      const v = sub(at[q]!, at[p]!);
      const length = len(v);
      if (!(length > NO_LENGTH)) return { value: 0, by: [] };
      const rise = dot(v, attitude.up);
      const run = len(along(v, attitude.up, -rise));
      const plan = Math.max(run, UPRIGHT * length);
      const d = scale(along(attitude.up, v, -rise / length ** 2), 1 / plan);
      return {
        value: Math.atan2(rise, run),
        by: [
          [p, neg(d)],
          [q, d],
        ],
        byLean: [dot(v, attitude.by[0]) / plan, dot(v, attitude.by[1]) / plan],
      };
    },
    surfaces: (point, { at, attitude }) => {
      if (between === undefined) return [];
      const rise = between * Math.sin(base.read) * (point === q ? 1 : -1);
      const other = at[point === q ? p : q]!;
      return [{ kind: "plane", normal: attitude.up, offset: dot(other, attitude.up) + rise }];
    },
  };
}

/** The shell's lean along (0) or across (1). */
export const lean = (base: Base, way: 0 | 1): Equation => ({
  ...base,
  isAngle: true,
  points: [],
  observe: ({ attitude }) => ({ value: attitude.lean[way], by: [], byLean: way === 0 ? [1, 0] : [0, 1] }),
  surfaces: () => [],
});

/** How far apart a tape says that its ends are (mm). */
export const distanceOf = ({ length, mark = 0 }: TapeReading): number => length - mark;

/** The distance by the tape that was read between two points, if one was. */
export function tapeBetween(readings: readonly Reading[], p: string, q: string): number | undefined {
  const ends = (r: TapeReading): readonly string[] => r.ends.map((e) => (e.kind === "point" ? e.point : ""));
  const found = readings.find(
    (r) => r.kind === "tape" && !r.struck && ends(r).includes(p) && ends(r).includes(q),
  );
  return found?.kind === "tape" ? distanceOf(found) : undefined;
}
