import { Matrix, SVD } from "ml-matrix";

export interface LinearFit {
  readonly x: readonly number[];
  /** One row an unknown. */
  readonly covariance: readonly (readonly number[])[];
  /** How far unknown i moves when reading j moves by 1: x = gain · readings. */
  readonly gain: readonly (readonly number[])[];
  /** Greatest over least stretch of the weighted equations, unknowns scaled alike; 1 at best, no unit. */
  readonly condition: number;
  /** Rows · x − readings. */
  readonly off: readonly number[];
  /** Readings beyond the unknowns. */
  readonly spare: number;
  /** How much larger the residuals are than the stated errors, at least 1. */
  readonly spread: number;
}

/**
 * Weighted linear least squares: the x that makes Σ ((rows·x − readings)/sd)² least.
 *
 * Units: those of the readings; `sd` is one standard deviation of each.
 * Range: as many independent rows as unknowns; otherwise `undefined`.
 * The ± comes from the residuals where there are spare readings, but never less than the stated errors give: two or
 * three readings that agree by luck prove nothing about the tape. (The Particle Data Group widens its averages by
 * the same factor max(1, √(χ²/spare)), Review of Particle Physics, introduction, "Unconstrained averaging"; from
 * memory.)
 * Formula: singular values of the weighted rows, columns scaled to length 1 (any text on least squares).
 */
export function fitLinear(
  rows: readonly (readonly number[])[],
  readings: readonly number[],
  sd: readonly number[],
): LinearFit | undefined {
  const unknowns = rows[0]?.length ?? 0;
  if (unknowns === 0 || rows.length < unknowns) return undefined;
  const weighted = rows.map((row, i) => row.map((v) => v / sd[i]!));
  const size = rows[0]!.map((_, j) => Math.hypot(...weighted.map((row) => row[j]!)));
  if (size.some((s) => !(s > 0))) return undefined;
  const svd = new SVD(new Matrix(weighted.map((row) => row.map((v, j) => v / size[j]!))));
  const stretch = svd.diagonal;
  const condition = stretch[0]! / stretch[unknowns - 1]!;
  if (!(condition < 1e10)) return undefined;

  const right = svd.rightSingularVectors.clone();
  for (let j = 0; j < unknowns; j++) right.mulColumn(j, 1 / stretch[j]!);
  for (let i = 0; i < unknowns; i++) right.mulRow(i, 1 / size[i]!);
  const gain = right
    .mmul(svd.leftSingularVectors.transpose())
    .to2DArray()
    .map((row) => row.map((g, j) => g / sd[j]!));
  const x = gain.map((row) => row.reduce((sum, g, j) => sum + g * readings[j]!, 0));
  const spare = rows.length - unknowns;
  const off = rows.map((row, i) => row.reduce((r, v, j) => r + v * x[j]!, -readings[i]!));
  const chi2 = off.reduce((sum, r, i) => sum + (r / sd[i]!) ** 2, 0);
  const spread = spare > 0 ? Math.max(1, Math.sqrt(chi2 / spare)) : 1;
  const covariance = right
    .mmul(right.transpose())
    .mul(spread * spread)
    .to2DArray();
  return { x, covariance, gain, condition, off, spare, spread };
}
