/** What a length must be multiplied by to be what was meant, and the slip that explains it. */
const SLIPS: readonly (readonly [number, string])[] = [
  [10, "typed in cm"],
  [25.4, "typed in inches"],
  [0.1, "in mm, typed as cm"],
  [1 / 25.4, "in mm, typed as inches"],
];

/** A length meets what is expected within this share where a unit explains it; other slips rarely do. */
const WITHIN = 0.03;

/** A slip of unit, and what was meant (mm). */
export interface UnitSlip {
  readonly says: string;
  readonly meant: number;
}

/** The slip of unit that explains why a length reads as it does where `expected` is; `slack` is what else it may be off by (mm). */
export function unitSlip(read: number, expected: number, slack: number): UnitSlip | undefined {
  const slip = SLIPS.find(([k]) => Math.abs(expected - k * read) < WITHIN * Math.abs(expected) + slack);
  return read !== 0 && slip ? { says: slip[1], meant: slip[0] * read } : undefined;
}
