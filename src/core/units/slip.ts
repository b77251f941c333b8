/** What a length must be multiplied by to be what was meant, and the slip that explains it. */
const SLIPS: readonly (readonly [number, string])[] = [
  [10, "typed in cm"],
  [25.4, "typed in inches"],
  [304.8, "typed in feet"],
  [0.1, "in mm, typed as cm"],
  [1 / 25.4, "in mm, typed as inches"],
  [12, "in feet, typed as inches"],
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
  readonly says: string;
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
  if (read === 0) return { says: "left at 0", meant: expected };
  const meets = Math.max(MEETS.share * Math.abs(expected), MEETS.sds * sd);
  const slip = SLIPS.map(([k, says]) => ({ says, meant: k * read, left: Math.abs(expected - k * read) }))
    .filter(({ left }) => left < meets && FAR_BETTER * left < off)
    .sort((a, b) => a.left - b.left)[0];
  return slip && { says: slip.says, meant: slip.meant };
}
