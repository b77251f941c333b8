// biome-ignore-all lint/style/noNonNullAssertion: readings and sd are as long as rows, by and off one entry a row, x and size one an unknown, and every row as long as the first
import { Matrix, SVD } from "ml-matrix";
import type { Rows } from "../numeric/index.ts";
import { cofactors } from "./cofactors.ts";

/** One V for each entry of a row. */
type Each<Row extends readonly number[], V> = { readonly [K in keyof Row]: V };

/** A fit of as many unknowns as its rows have entries. */
export interface LinearFit<Row extends readonly number[] = readonly number[]> {
  readonly x: Each<Row, number>;
  /** One row an unknown. */
  readonly covariance: Each<Row, Each<Row, number>>;
  /** How far unknown i moves when reading j moves by 1: x = gain · readings. */
  readonly gain: Each<Row, readonly number[]>;
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
 * Formula: normal equations, columns scaled to length 1 (`cofactors`), the answer bettered once by its own residuals.
 * Accuracy: the line problems of NIST to all printed digits (tests/outside/nist-lines.test.ts).
 */
export function fitLinear<Row extends readonly number[]>(
  rows: readonly Row[],
  readings: readonly number[],
  sd: readonly number[],
): LinearFit<Row> | undefined {
  const unknowns = rows[0]?.length ?? 0;
  if (unknowns === 0 || rows.length < unknowns) return undefined;
  const weighted = rows.map((row, i) => row.map((v) => v / sd[i]!));
  const { covariance: alone, rank } = cofactors(weighted, unknowns);
  if (rank < unknowns) return undefined;
  const gain = alone.map((row) =>
    weighted.map((w, i) => row.reduce((sum, c, j) => sum + c * w[j]!, 0) / sd[i]!),
  );
  const moved = (by: readonly number[]): number[] =>
    gain.map((row) => row.reduce((sum, g, j) => sum + g * by[j]!, 0));
  const offOf = (x: readonly number[]): number[] =>
    rows.map((row, i) => row.reduce((r, v, j) => r + v * x[j]!, -readings[i]!));
  const near = moved(readings);
  const still = moved(offOf(near));
  const x = near.map((v, j) => v - still[j]!);
  const off = offOf(x);
  const spare = rows.length - unknowns;
  const chi2 = off.reduce((sum, r, i) => sum + (r / sd[i]!) ** 2, 0);
  const spread = spare > 0 ? Math.max(1, Math.sqrt(chi2 / spare)) : 1;
  const covariance = alone.map((row) => row.map((v) => v * spread * spread));
  const fit: LinearFit = { x, covariance, gain, condition: conditionOf(weighted), off, spare, spread };
  // Every list has an entry for each of the row's.
  return fit as LinearFit<Row>;
}

/** Greatest over least singular value, the columns scaled to length 1. */
function conditionOf(weighted: Rows): number {
  const size = weighted[0]!.map((_, j) => Math.hypot(...weighted.map((row) => row[j]!)));
  const scaled = weighted.map((row) => row.map((v, j) => v / size[j]!));
  const stretch = new SVD(new Matrix(scaled)).diagonal;
  return stretch[0]! / stretch[stretch.length - 1]!;
}
