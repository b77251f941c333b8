import { deviationOf, learnt, type Row, sparse } from "../estimate/index.ts";
import { type Rows, rad } from "../numeric/index.ts";
import { angleBetween, type Vec } from "../space/index.ts";
import { type Blank, bentShape, type Habits, habitSizes } from "./bent.ts";
import { type BentReading, measure, readingProblem } from "./bent-readings.ts";
import { endOf } from "./errors.ts";
import { reversedShape } from "./match.ts";
import { type BarShape, lineOf } from "./shape.ts";

/** A reading to take on a bent bar, and what it would tell. */
export interface Telling {
  /** `value` is what it reads on the bar as wanted (mm, radians). */
  readonly reading: BentReading;
  /** How far the free end may be off, one standard deviation, before and after it (mm). */
  readonly before: number;
  readonly after: number;
}

/** A reading that makes the free end less surely known than this by less of itself tells little. */
const WORTH = 0.06;

/**
 * The few readings that tell most of a bent bar: each in its turn the one that shrinks most what the free end may be
 * off by, given what the shop's habits allow and what was read already.
 *
 * First order, about the bar as wanted: covariance C of the unknowns, a reading's row h, C − C hᵀh C/(h C hᵀ + sd²).
 * The free end is that which is fed last, the end fed first held. At most `most`; none that tells less than 6 %.
 * Units: mm, radians. A straight bar has none but end to end, and that was sawn: nothing to tell.
 */
export function tellingReadings(
  blank: Blank,
  taken: readonly BentReading[],
  habits: Habits,
  sds: { readonly tape: number; readonly finder: number },
  most = 4,
): readonly Telling[] {
  const bends = blank.shape.angles.length;
  if (bends === 0) return [];
  const size = habitSizes(blank, habits);
  const sdOf = (r: BentReading): number =>
    Math.max(1e-6, r.sd ?? (r.what === "angle" ? sds.finder : sds.tape));
  const freeEnd = (x: readonly number[]): Vec => {
    const shape = bentShape(blank, x);
    return endOf(blank.fromEnd === "A" ? shape : reversedShape(shape)).at;
  };
  const reads = (r: BentReading, x: readonly number[]): number =>
    measure(r, bentShape(blank, x), blank.od, blank.shape);
  const steps = size.map((s) => s / 100);
  const slope = (f: (x: readonly number[]) => number): number[] =>
    steps.map((h, j) => {
      const at = (by: number): number[] => steps.map((_, k) => (k === j ? by : 0));
      return (f(at(h)) - f(at(-h))) / (2 * h);
    });
  const far = ([0, 1, 2] as const).map((k) => sparse(slope((x) => freeEnd(x)[k])));
  const off = (c: Rows): number => deviationOf(c, far);
  const rowOf = (r: BentReading): Row => sparse(slope((x) => reads(r, x)).map((v) => v / sdOf(r)));
  let c: Rows = size.map((s, j) => size.map((_, k) => (j === k ? s * s : 0)));
  for (const r of taken) c = learnt(c, rowOf(r));
  const none = size.map(() => 0);
  let left = possible(blank.shape, blank.fromEnd)
    .filter((r) => !taken.some((t) => same(t, r)))
    .map((r) => ({ reading: { ...r, value: reads(r, none) }, row: rowOf(r) }));
  const found: Telling[] = [];
  while (found.length < most && left.length > 0) {
    const before = off(c);
    const rated = left.map((l) => ({ ...l, after: off(learnt(c, l.row)) }));
    const best = rated.reduce((a, b) => (b.after < a.after - 1e-9 ? b : a));
    if (!(before - best.after > WORTH * before)) break;
    found.push({ reading: best.reading, before, after: best.after });
    c = learnt(c, best.row);
    left = left.filter((l) => l.reading !== best.reading);
  }
  return found;
}

/** Legs farther than this from parallel are not read across: where the square would stand is anyone's guess. */
const ACROSS = rad(20);

/** Every reading that this bar can give, its value still nothing. */
function possible(shape: BarShape, fromEnd: "A" | "B"): readonly BentReading[] {
  const n = shape.angles.length;
  const line = lineOf(shape, { at: [0, 0, 0], dir: [1, 0, 0], inside: [0, 1, 0] });
  const dirs = line.pieces.flatMap((p) => (p.kind === "straight" ? [p.dir] : []));
  const across = dirs.flatMap((one, i) =>
    dirs.flatMap((other, j): BentReading[] => {
      const apart = angleBetween(one, other);
      return j > i + 1 && Math.min(apart, Math.PI - apart) <= ACROSS
        ? [{ what: "across", legs: [i + 1, j + 1], value: 1 }]
        : [];
    }),
  );
  const made = shape.numbers.at(fromEnd === "A" ? 0 : -1);
  const all: BentReading[] = [
    { what: "end-to-end", value: 1 },
    { what: "leg", end: "A", value: 1 },
    { what: "leg", end: "B", value: 1 },
    ...across,
    ...(n > 1 && made !== undefined
      ? [{ what: "off-flat", bend: made, end: fromEnd === "A" ? "B" : "A", value: 1 } as const]
      : []),
    ...shape.numbers.map((bend): BentReading => ({ what: "angle", bend, value: 1 })),
  ];
  return all.filter((r) => readingProblem(r, shape) === undefined);
}

/** Whether two readings are of one thing, whatever they read. */
function same(a: BentReading, b: BentReading): boolean {
  const key = (reading: BentReading): string =>
    JSON.stringify(
      Object.entries(reading)
        .filter(([name]) => name !== "value" && name !== "sd")
        .sort(),
    );
  return key(a) === key(b);
}
