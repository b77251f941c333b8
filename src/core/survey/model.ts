// biome-ignore-all lint/style/noNonNullAssertion: modelOf numbers points and unknowns: slots, known and network.at have an entry a point, the covariance a line an unknown, and an equation speaks of those points alone
import type { Finding } from "../findings/index.ts";
import type { Reading } from "../job/reading-types.ts";
import type { Job, JobPoint, ShopErrors } from "../job/types.ts";
import { type Rows, rad, SAME_PLACE } from "../numeric/index.ts";
import { dist, ORIGIN, type Vec } from "../space/index.ts";
import { attitudeOf } from "./attitude.ts";
import { type End, endOf, type SurveyBar } from "./ends.ts";
import {
  AXES,
  distanceOf,
  type Equation,
  height,
  known,
  lean,
  type Network,
  plumb,
  sameHeight,
  slope,
  tape,
  tapeBetween,
} from "./equation.ts";

/** What a survey is made from; a `Job` is one. */
export type SurveyJob = Pick<Job, "points" | "readings"> & {
  readonly shop: { readonly errors: Pick<ShopErrors, "tape" | "height" | "level" | "plumb" | "slope"> };
};

/** The points, numbered, their coordinates as unknowns or constants, and everything known of them as equations. */
export interface Model {
  readonly ids: readonly string[];
  /** What is known of each point beforehand. */
  readonly known: readonly JobPoint[];
  /** The unknown's number of each coordinate; undefined where the coordinate is exact. */
  readonly slots: readonly (readonly [number | undefined, number | undefined, number | undefined])[];
  /** The unknown's number of the lean along and across; undefined where none was read: the shell stands level. */
  readonly lean: readonly [number | undefined, number | undefined];
  readonly unknowns: number;
  readonly equations: readonly Equation[];
  readonly readings: readonly Reading[];
  /** No two places of the job lie farther apart (mm). */
  readonly extent: number;
  /** Readings that could not be used, and why. */
  readonly findings: readonly Finding[];
}

/** A shop whose angle finder is stated to be without error still has this one (radians). */
const LEAST_ANGLE = rad(0.001);

export function modelOf(job: SurveyJob, bars: ReadonlyMap<string, SurveyBar>): Model {
  const ids = Object.keys(job.points);
  const points = ids.map((id) => job.points[id]!);
  let unknowns = 0;
  const slots = points.map(({ at, sd }) => {
    const slot = (i: 0 | 1 | 2): number | undefined => (at && !(sd[i] > 0) ? undefined : unknowns++);
    return [slot(0), slot(1), slot(2)] as const;
  });
  const counted = job.readings.filter((r) => !r.struck);
  const leans = (way: "along" | "across"): boolean => counted.some((r) => r.kind === "lean" && r.way === way);
  const leanSlots = [
    leans("along") ? unknowns++ : undefined,
    leans("across") ? unknowns++ : undefined,
  ] as const;
  const findings: Finding[] = [];
  const numbers = new Map(ids.map((id, p) => [id, p]));
  const equations = [
    ...points.flatMap((point, p) => beforehand(point, p)),
    ...job.readings.flatMap((reading, index) => {
      if (reading.struck) return [];
      const made = equationsOf(reading, index, job, numbers, bars);
      if (made.every((m): m is Equation => "observe" in m)) return made;
      findings.push(...made.filter((m): m is Finding => "code" in m));
      return [];
    }),
  ];
  const extent = extentOf(points, counted);
  return {
    ids,
    known: points,
    slots,
    lean: leanSlots,
    unknowns,
    equations,
    readings: job.readings,
    extent,
    findings,
  };
}

/** A place with an error counts as three readings of its coordinates, an exact coordinate as none. */
function beforehand({ at, sd }: JobPoint, p: number): Equation[] {
  if (!at) return [];
  return ([0, 1, 2] as const).flatMap((i) => (sd[i] > 0 ? [known({ read: at[i], sd: sd[i] }, p, i)] : []));
}

/** One reading as equations, or why it cannot be used. */
export function equationsOf(
  reading: Reading,
  index: number,
  job: Pick<SurveyJob, "readings" | "shop">,
  points: ReadonlyMap<string, number>,
  bars: ReadonlyMap<string, SurveyBar>,
): readonly (Equation | Finding)[] {
  const { errors } = job.shop;
  const base = (read: number, usual: number) => ({
    reading: index,
    read,
    sd: reading.sd ?? Math.max(usual, SAME_PLACE),
  });
  const angle = (degrees: number) => ({
    reading: index,
    read: rad(degrees),
    sd: rad(reading.sd ?? errors.slope) || LEAST_ANGLE,
  });
  const numbered = (id: string): number => {
    const number = points.get(id);
    if (number === undefined) throw new Error(`readings[${index}]: there is no point ${id}`);
    return number;
  };
  const pair = (ids: readonly [string, string]) => [numbered(ids[0]), numbered(ids[1])] as const;
  switch (reading.kind) {
    case "tape": {
      const ends = reading.ends.map((end, k) => endOf(end, points, bars, `readings[${index}].tape[${k}]`));
      const missing = ends.filter((end): end is Finding => "code" in end);
      if (missing.length > 0) return missing;
      return [tape(base(reading.length, errors.tape), ends as readonly End[] as [End, End], reading.mark)];
    }
    case "height":
      return [height(base(reading.value, errors.height), numbered(reading.point))];
    case "out":
    case "fore":
      return [known(base(reading.value, errors.height), numbered(reading.point), AXES[reading.kind])];
    case "level":
      return [sameHeight(base(0, errors.level), pair(reading.points))];
    case "plumb":
      return plumb(base(0, errors.plumb), pair(reading.points));
    case "slope":
      return [
        slope(angle(reading.angle), pair(reading.points), tapeBetween(job.readings, ...reading.points)),
      ];
    case "lean":
      return [lean(angle(reading.angle), reading.way === "along" ? 0 : 1)];
  }
}

/** Nothing that is surveyed is smaller (mm): a place known to a few millimetres is known, though it be the only one. */
const LEAST_EXTENT = 100;

function extentOf(points: readonly JobPoint[], readings: readonly Reading[]): number {
  // heights and places forward and out are measured from the datum
  const places = [ORIGIN, ...points.flatMap((p) => (p.at ? [p.at] : []))];
  const corner = (pick: (...v: number[]) => number): Vec => [
    pick(...places.map((p) => p[0])),
    pick(...places.map((p) => p[1])),
    pick(...places.map((p) => p[2])),
  ];
  const spread = dist(corner(Math.min), corner(Math.max));
  const longest = readings.map((r) =>
    r.kind === "tape" ? distanceOf(r) : "value" in r ? Math.abs(r.value) : 0,
  );
  return Math.max(spread, ...longest, LEAST_EXTENT);
}

/** No point is farther from where it stands than the car is long; no shell leans by a radian. */
export function farOf(model: Model): readonly number[] {
  const far = new Array<number>(model.unknowns).fill(model.extent);
  for (const slot of model.lean) if (slot !== undefined) far[slot] = 1;
  return far;
}

/** The unknowns as a network. */
export function networkOf(model: Model, x: readonly number[]): Network {
  const at = model.slots.map((slots, p): Vec => {
    const fixed = model.known[p]!.at;
    const c = (i: 0 | 1 | 2): number => (slots[i] === undefined ? fixed![i] : x[slots[i]]!);
    return [c(0), c(1), c(2)];
  });
  const [along, across] = model.lean;
  return {
    at,
    attitude: attitudeOf(along === undefined ? 0 : x[along]!, across === undefined ? 0 : x[across]!),
  };
}

/** A network's places as unknowns. */
export function unknownsOf(model: Model, network: Network): number[] {
  const x = new Array<number>(model.unknowns).fill(0);
  model.slots.forEach((slots, p) => {
    slots.forEach((slot, i) => {
      if (slot !== undefined) x[slot] = network.at[p]![i]!;
    });
  });
  model.lean.forEach((slot, way) => {
    if (slot !== undefined) x[slot] = network.attitude.lean[way]!;
  });
  return x;
}

/** An equation's derivatives by the unknowns that it touches. */
export function touchedBy(model: Model, equation: Equation, network: Network): ReadonlyMap<number, number> {
  const touched = new Map<number, number>();
  const add = (slot: number | undefined, v: number): void => {
    if (slot !== undefined && v !== 0) touched.set(slot, (touched.get(slot) ?? 0) + v);
  };
  const { by, byLean } = equation.observe(network);
  for (const [p, d] of by) for (const i of [0, 1, 2] as const) add(model.slots[p]![i], d[i]);
  if (byLean) for (const way of [0, 1] as const) add(model.lean[way], byLean[way]);
  return touched;
}

/** The same as a row over all unknowns, over the equation's error. */
export function rowOf(model: Model, equation: Equation, network: Network): number[] {
  const row = new Array<number>(model.unknowns).fill(0);
  for (const [slot, v] of touchedBy(model, equation, network)) row[slot] = v / equation.sd;
  return row;
}

/** What an equation is out by, in sd. */
export const residualOf = (e: Equation, network: Network): number =>
  (e.observe(network).value - e.read) / e.sd;

export const residualsOf = (equations: readonly Equation[], network: Network): number[] =>
  equations.map((e) => residualOf(e, network));

/** How that moves with the unknowns, one row an equation. */
export const rowsOf = (model: Model, equations: readonly Equation[], network: Network): Rows =>
  equations.map((e) => rowOf(model, e, network));
