/** What readings of one and the same thing say of how far a reading may be off. */
export interface Repeated {
  readonly count: number;
  readonly mean: number;
  /** One standard deviation of a single reading, and how far off that itself may be; in the readings' unit. */
  readonly sd: number;
  readonly sdOfSd: number;
  /** The readings agree as far as their scale shows: `sd` is what the scale alone can hide. */
  readonly isScale: boolean;
}

/**
 * The scatter of repeated readings.
 *
 * Units: any, one for all. Range: two readings or more; undefined for fewer. `division`: the finest that the scale
 * shows; the readings cannot agree better than it, so the answer is never below division/√12.
 * Formula: mean; s = √(Σ(x − mean)²/(n − 1)) in two passes; of s itself s/√(2(n − 1)), for readings that scatter
 * normally (GUM, JCGM 100:2008, E.4.3 Table E.1, first order). A rounded reading: division/√12 (GUM F.2.2.1).
 * Accuracy: NIST StRD NumAcc1 to NumAcc3 (certified values, from memory) to 8 digits.
 */
export function repeated(readings: readonly number[], division = 0): Repeated | undefined {
  const count = readings.length;
  if (count < 2) return undefined;
  const rough = readings.reduce((sum, x) => sum + x, 0) / count;
  const mean = rough + readings.reduce((sum, x) => sum + (x - rough), 0) / count;
  const spread = Math.sqrt(readings.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (count - 1));
  const least = division / Math.sqrt(12);
  const sd = Math.max(spread, least);
  return { count, mean, sd, sdOfSd: sd / Math.sqrt(2 * (count - 1)), isScale: spread < least };
}
