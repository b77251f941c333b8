// biome-ignore-all lint/style/noNonNullAssertion: x, size and the covariance have an entry for each unknown in the order of habitSizes, readings and at one a reading, and a shape has a turn and a radius for each angle, one straight more
import { adjusted, checkedByPriors, deviationOf, sparse, suspectAmong } from "../estimate/index.ts";
import type { End } from "../job/types.ts";
import type { Rows } from "../numeric/index.ts";
import { type BentReading, measure } from "./bent-readings.ts";
import type { BarShape } from "./shape.ts";

/** What a shop's work scatters by: one standard deviation each (mm, radians, radians). */
export interface Habits {
  readonly mark: number;
  readonly angle: number;
  readonly turn: number;
}

/** A bar on the bender's card: its shape with the ends sawn square. */
export interface Blank {
  readonly shape: BarShape;
  /** Outside diameter (mm). */
  readonly od: number;
  /** The end fed first: bends begin at their marks on that side. */
  readonly fromEnd: End;
  /** Tube used in a bend over R·θ. */
  readonly arcFactor: number;
}

export interface AsBent {
  /** The bar that it really is, most likely. */
  readonly shape: BarShape;
  /** One standard deviation of each angle, turn and straight, from what the shop does and what was read. */
  readonly sd: {
    readonly angles: readonly number[];
    readonly turns: readonly number[];
    readonly straights: readonly number[];
  };
  /** Of the unknowns in the order angles, turns (from the second bend), marks, length of the stick. */
  readonly covariance: Rows;
  readonly readings: readonly {
    readonly read: number;
    readonly computed: number;
    /** Off by so many standard deviations, of the reading and of what the shop does together. */
    readonly normalized: number;
  }[];
  /** How many times the shop's habits had to be widened to hold the readings: 1 unless a slip was made. */
  readonly widened: number;
  /** The reading farthest from what the habits allow, by index, where that is beyond the critical value. */
  readonly suspect?: number;
}

/**
 * The bar as it was really bent, from a few readings.
 *
 * Least squares over how far each bend, each turn and each mark is off, and the stick's length: believed 0 ± the
 * shop's habits before any reading, so that as few as one reading moves what it tells of and leaves the rest where it
 * was. A bend begins at its mark on the side fed first and uses arcFactor·R·θ of tube; the stick's length is what it
 * was sawn to; so a bend that is over shortens the straight behind it.
 * Where a reading stands farther than the critical value from what the habits allow, a slip was made: the habits
 * are then widened, all alike, until readings and habits agree (Σ (residual/sd)² = number of readings), lest the belief
 * in good work hide the slip.
 * Units: mm, radians; each reading's `sd` where it has one, else `tape` or `finder`.
 * Range: any number of readings; undefined where they and the wanted bar have nothing to do with each other.
 * Accuracy: the ± is first order; a bend that is off is pulled toward the wanted one by (sd/habit)² of what it is off.
 */
export function asBent(
  blank: Blank,
  readings: readonly BentReading[],
  habits: Habits,
  sds: { readonly tape: number; readonly finder: number },
): AsBent | undefined {
  const sd = readings.map((r) => Math.max(r.sd ?? (r.what === "angle" ? sds.finder : sds.tape), 1e-6));
  const first = fitBent(blank, readings, sd, habits, 1);
  if (!first) return undefined;
  const suspect = suspectAmong(first.readings.map((r) => r.normalized));
  if (suspect === undefined) return told(blank, first, 1);
  let [widened, fit] = [1, first];
  for (let i = 0; i < 12 && fit.chi2 > 1.05 * readings.length; i++) {
    widened *= Math.sqrt(fit.chi2 / readings.length);
    const again = fitBent(blank, readings, sd, habits, widened);
    if (!again) return undefined;
    fit = again;
  }
  return { ...told(blank, fit, widened), suspect };
}

interface Fit {
  readonly x: readonly number[];
  readonly chi2: number;
  readonly covariance: Rows;
  readonly readings: AsBent["readings"];
}

function fitBent(
  blank: Blank,
  readings: readonly BentReading[],
  sd: readonly number[],
  habits: Habits,
  widened: number,
): Fit | undefined {
  // Unknowns count in standard deviations of the habits, so that all are of one size for the search.
  const size = habitSizes(blank, habits).map((habit) => habit * widened);
  const prior = size.map(() => ({ at: 0, sd: 1 }));
  const inUnits = (x: readonly number[]): number[] => x.map((v, j) => v * size[j]!);
  const computed = (x: readonly number[]): number[] => {
    const shape = bentShape(blank, inUnits(x));
    return readings.map((r) => measure(r, shape, blank.od, blank.shape));
  };
  const residuals = (x: readonly number[]): number[] => computed(x).map((v, i) => v - readings[i]!.value);
  const fit = adjusted(
    { residuals, sd, prior },
    prior.map(() => 0),
  );
  if (!fit) return undefined;
  const at = computed(fit.x);
  const list = readings.map((r, i) => ({
    read: r.value,
    computed: at[i]!,
    normalized: checkedByPriors(fit, i),
  }));
  return {
    x: inUnits(fit.x),
    chi2: fit.chi2,
    covariance: fit.covariance.map((row, j) => row.map((v, k) => v * size[j]! * size[k]!)),
    readings: list,
  };
}

const told = (blank: Blank, { x, covariance, readings }: Fit, widened: number): AsBent => ({
  shape: bentShape(blank, x),
  sd: spread(blank, x, covariance),
  covariance,
  readings,
  widened,
});

/** One standard deviation of each unknown: angles, turns (from the second bend), marks, length of the stick. */
export function habitSizes({ shape }: Blank, { angle, turn, mark }: Habits): readonly number[] {
  const bends = shape.angles.length;
  const turns = Math.max(0, bends - 1);
  return Array.from({ length: 2 * bends + turns + 1 }, (_, j) =>
    j < bends ? angle : j < bends + turns ? turn : mark,
  );
}

/** The shape that a blank takes when its bends, turns, marks and length are off by x. */
export function bentShape({ shape, fromEnd, arcFactor }: Blank, x: readonly number[]): BarShape {
  const bends = shape.angles.length;
  const turns = Math.max(0, bends - 1);
  const angles = shape.angles.map((a, i) => a + x[i]!);
  const grown = shape.angles.map((_, i) => arcFactor * shape.radii[i]! * x[i]!);
  const mark = (i: number): number => x[bends + turns + i]!;
  const longer = x[bends + turns + bends]!;
  const straights = shape.straights.map((s, i) => {
    // Between two marks the tube is what it is; from A a bend eats into the straight behind it, from B into that before.
    const eaten = fromEnd === "A" ? (i > 0 ? grown[i - 1]! : 0) : i < bends ? grown[i]! : 0;
    // Marks count from the end fed first; what the stick is longer by stands at the other.
    const from = i > 0 ? mark(i - 1) : fromEnd === "A" ? 0 : -longer;
    const to = i < bends ? mark(i) : fromEnd === "A" ? longer : 0;
    return s + to - from - eaten;
  });
  return {
    straights,
    angles,
    turns: shape.turns.map((t, i) => (i > 0 ? t + x[bends + i - 1]! : 0)),
    radii: shape.radii,
    numbers: shape.numbers,
  };
}

/** One standard deviation of every measure of the shape: measures are linear in the unknowns, so a step of 1 is exact. */
function spread(blank: Blank, x: readonly number[], covariance: Rows): AsBent["sd"] {
  const flat = (s: BarShape): number[] => [...s.angles, ...s.turns, ...s.straights];
  const here = flat(bentShape(blank, x));
  const columns = x.map((_, j) => {
    const moved = flat(
      bentShape(
        blank,
        x.map((v, k) => (k === j ? v + 1 : v)),
      ),
    );
    return moved.map((v, i) => v - here[i]!);
  });
  const sd = here.map((_, i) => deviationOf(covariance, [sparse(columns.map((c) => c[i]!))]));
  const n = blank.shape.angles.length;
  return { angles: sd.slice(0, n), turns: sd.slice(n, 2 * n), straights: sd.slice(2 * n) };
}
