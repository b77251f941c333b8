import { type Finding, mm, phrase, type Quantity } from "../findings/index.ts";
import { type UnitSlip, unitSlip } from "../units/index.ts";
import { type Blank, bentShape, type Habits, habitSizes } from "./bent.ts";
import { type BentReading, measure } from "./bent-readings.ts";

/** What a reading would be by all that is known before it, and one standard deviation of that and of the reading together. */
export interface Expected {
  readonly at: number;
  readonly sd: number;
}

/** A reading that a slip of unit explains, by index: it is left out of the answer, and that is said. */
export interface Slipped extends UnitSlip {
  readonly index: number;
  /** What was to be expected (mm). */
  readonly expected: number;
}

/**
 * What each reading would be on the bar as wanted, and what it scatters by where the shop works as it does: the
 * reading's change with each unknown off by one of its standard deviations, in squares, and its own. Units: mm, radians.
 */
export function expectedBent(
  blank: Blank,
  readings: readonly BentReading[],
  habits: Habits,
  sds: { readonly tape: number; readonly finder: number },
): readonly Expected[] {
  const sizes = habitSizes(blank, habits);
  const off = sizes.map((size, j) =>
    bentShape(
      blank,
      sizes.map((_, k) => (k === j ? size : 0)),
    ),
  );
  return readings.map((r) => {
    const reads = (shape: Blank["shape"]): number => measure(r, shape, blank.od, blank.shape);
    const at = reads(blank.shape);
    const own = r.sd ?? (r.what === "angle" ? sds.finder : sds.tape);
    return { at, sd: Math.hypot(own, ...off.map((shape) => reads(shape) - at)) };
  });
}

/** Readings of length that a slip of unit explains. `isLength` says which of them are none of an angle. */
export const slipsAmong = (
  readings: readonly { readonly value: number }[],
  expected: readonly Expected[],
  isLength: (index: number) => boolean = () => true,
): readonly Slipped[] =>
  expected.flatMap(({ at, sd }, index) => {
    const reading = readings[index];
    const slip = reading && isLength(index) ? unitSlip(reading.value, at, sd) : undefined;
    return slip ? [{ ...slip, index, expected: at }] : [];
  });

/** The warning for a reading that was left out; `reading` names it. */
export const slipFinding = (bar: string, reading: Quantity, read: number, slip: Slipped): Finding => ({
  code: "reading-unit",
  place: `bars.${bar}`,
  bar,
  values: { reading, read: mm(read), expected: mm(slip.expected), likely: phrase(`slip-${slip.slip}`) },
});

/** The readings that count, with their places in the list. */
export const besidesSlips = <R>(
  readings: readonly R[],
  slips: readonly Slipped[],
): readonly { readonly index: number; readonly reading: R }[] => {
  const out = new Set(slips.map((s) => s.index));
  return readings.flatMap((reading, index) => (out.has(index) ? [] : [{ index, reading }]));
};
