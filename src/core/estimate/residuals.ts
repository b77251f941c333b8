// biome-ignore-all lint/style/noNonNullAssertion: i is a reading of the fit, by the docstrings; rows and weighted have an entry for each
import type { Adjustment } from "./adjustment.ts";
import { sparse, varianceOf } from "./covariance.ts";

/**
 * The critical value: a standardised residual beyond it comes by chance once in a thousand (normal distribution, both
 * sides), and what lies beyond it is a suspect (W. Baarda, A testing procedure for use in geodetic networks,
 * Netherlands Geodetic Commission, 1968).
 */
export const CRITICAL = 3.29;

/** Redundancy below which nothing checks a reading. */
const UNCHECKED = 1e-6;

/** What rounding leaves of a redundancy. */
const ROUNDING = 1e-9;

type Checkable = Pick<Adjustment, "covariance" | "rows" | "weighted">;

/** r = 1 − aᵀCa, a the reading's row over its sd: the share of an error in it that shows in its residual. */
const redundancyOf = ({ covariance, rows }: Checkable, i: number): number =>
  Math.min(1, Math.max(0, 1 - varianceOf(covariance, sparse(rows[i]!))));

/** Reading i's redundancy, and its residual over the residual's own standard deviation: v/(σ√r); null where nothing checks it. */
export function standardised(
  fit: Checkable,
  i: number,
): { readonly redundancy: number; readonly normalized: number | null } {
  const redundancy = redundancyOf(fit, i);
  const normalized = redundancy < UNCHECKED ? null : fit.weighted[i]! / Math.sqrt(redundancy);
  return { redundancy, normalized };
}

/** The same where every unknown has a prior: that checks every reading, however little. */
export const checkedByPriors = (fit: Checkable, i: number): number =>
  fit.weighted[i]! / Math.sqrt(Math.max(ROUNDING, redundancyOf(fit, i)));

/** The reading that stands farthest out by its standardised residual, by index, where that is beyond the critical value. */
export function suspectAmong(normalized: readonly (number | null)[]): number | undefined {
  let worst: number | undefined;
  let most = CRITICAL;
  for (const [i, value] of normalized.entries()) {
    const size = Math.abs(value ?? 0);
    if (size > most) [worst, most] = [i, size];
  }
  return worst;
}
