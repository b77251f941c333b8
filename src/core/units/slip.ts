/** cm, in, ft: typed in that unit where millimetres are asked for; mm-as-cm: read in mm and typed as if it were cm; zero: left at 0. */
export type SlipCode = "cm" | "in" | "ft" | "mm-as-cm" | "mm-as-in" | "ft-as-in" | "zero";

/** What a length must be multiplied by to be what was meant, and the slip that explains it. */
const SLIPS: readonly (readonly [number, SlipCode])[] = [
  [10, "cm"],
  [25.4, "in"],
  [304.8, "ft"],
  [0.1, "mm-as-cm"],
  [1 / 25.4, "mm-as-in"],
  [12, "ft-as-in"],
];

/** A reading so many standard deviations from what is expected may well be true: work that is off, a tape held elsewhere. */
const PLAUSIBLE = 6;

/** Nearer to zero than this (mm) any unit explains anything. */
const NEAR_ZERO = 50;

/** What a unit makes of the reading meets what is expected within this share, or so many standard deviations. */
const MEETS = { share: 0.03, sds: 3 };

/** A unit must explain the reading so many times better than the reading as it is. */
const FAR_BETTER = 5;

/** A slip of unit, and what was meant (mm). */
export interface UnitSlip {
  readonly slip: SlipCode;
  readonly meant: number;
}

/**
 * The guard against slips of unit, one for all readings of length: the slip that explains why one reads as it does, if
 * one does. It only ever warns; whoever asks says it and goes on.
 *
 * `expected` is what the reading would be by all else that is known, `sd` its own scatter and the reading's together
 * (one standard deviation; all mm). Silent where the reading is plausible as read (within 6 sd), where less than 50 mm
 * is expected, and where no unit explains it five times better than that.
 */
export function unitSlip(read: number, expected: number, sd: number): UnitSlip | undefined {
  const off = Math.abs(expected - read);
  if (off <= PLAUSIBLE * sd || Math.abs(expected) < NEAR_ZERO) return undefined;
  if (read === 0) return { slip: "zero", meant: expected };
  const meets = Math.max(MEETS.share * Math.abs(expected), MEETS.sds * sd);
  const found = SLIPS.map(([k, slip]) => ({ slip, meant: k * read, left: Math.abs(expected - k * read) }))
    .filter(({ left }) => left < meets && FAR_BETTER * left < off)
    .sort((a, b) => a.left - b.left)[0];
  return found && { slip: found.slip, meant: found.meant };
}
