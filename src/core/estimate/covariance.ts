// biome-ignore-all lint/style/noNonNullAssertion: a covariance is square and a row touches unknowns below its size; at and by are alike long, lower is n by n
import type { Rows } from "../numeric/index.ts";

/** How a figure moves with the few unknowns that it touches: `by[k]` for 1 of unknown `at[k]`. */
export interface Row {
  readonly at: readonly number[];
  readonly by: readonly number[];
}

/** A full row, one entry an unknown, as the entries other than 0. */
export function sparse(row: readonly number[]): Row {
  const at = row.flatMap((v, j) => (v === 0 ? [] : [j]));
  return { at, by: at.map((j) => row[j]!) };
}

/** (C·a)ᵢ: the covariance of unknown i and the figure whose row a is, C that of the unknowns. */
export function covarianceWith(c: Rows, { at, by }: Row, i: number): number {
  const line = c[i]!;
  let sum = 0;
  for (let k = 0; k < at.length; k++) sum += line[at[k]!]! * by[k]!;
  return sum;
}

const allWith = (c: Rows, row: Row, unknowns: readonly number[]): readonly number[] =>
  unknowns.map((i) => covarianceWith(c, row, i));

const dotted = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, v, i) => sum + v * b[i]!, 0);

/** aᵀCa: the variance of a figure (error propagation, first order). */
export const varianceOf = (c: Rows, row: Row): number => dotted(allWith(c, row, row.at), row.by);

/** One standard deviation of a figure that has parts square to each other, all of them together. */
export const deviationOf = (c: Rows, parts: readonly Row[]): number =>
  Math.sqrt(parts.reduce((sum, row) => sum + varianceOf(c, row), 0));

/**
 * By how much one more reading would shrink Σ of the variances of some unknowns; `row` is the reading's, over
 * its standard deviation. Formula: the covariance falls by (Ca)(Ca)ᵀ/(1 + aᵀCa).
 */
export function shrinkage(c: Rows, row: Row, unknowns: readonly number[]): number {
  const all = allWith(c, row, unknowns);
  return dotted(all, all) / (1 + varianceOf(c, row));
}

/** The covariance after one more reading, its row over its standard deviation. */
export function learnt(c: Rows, row: Row): Rows {
  const all = allWith(c, row, [...c.keys()]);
  const own = 1 + varianceOf(c, row);
  return c.map((line, i) => line.map((value, j) => value - (all[i]! * all[j]!) / own));
}

/**
 * The first `n` unknowns' errors as moves independent of each other, each one standard deviation long: the columns of
 * L, C = LLᵀ (Cholesky). A combination without error has a column of 0.
 */
export function axesOf(c: Rows, n: number): Rows {
  const lower = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = c[i]![j]!;
      for (let k = 0; k < j; k++) sum -= lower[i]![k]! * lower[j]![k]!;
      lower[i]![j] = i === j ? Math.sqrt(Math.max(0, sum)) : lower[j]![j]! > 0 ? sum / lower[j]![j]! : 0;
    }
  }
  return lower.map((_, j) => lower.map((row) => row[j]!));
}
