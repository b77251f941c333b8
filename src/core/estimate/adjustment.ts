import type { Rows } from "../numeric/index.ts";
import { type Cofactors, cofactors } from "./cofactors.ts";
import { type LeastSquaresProblem, leastSquares } from "./leastsquares.ts";

/** Readings adjusted by least squares: the unknowns, and how well they are known. */
export interface Adjustment extends Cofactors {
  readonly x: readonly number[];
  /** Σ (residual/sd)², those of the priors included. */
  readonly chi2: number;
  /** Residuals over their sd, readings first, then priors. */
  readonly weighted: readonly number[];
  /** Their derivatives, over the same sd. */
  readonly rows: Rows;
}

/**
 * The unknowns near `start` that suit readings and priors best, with their covariance; undefined where the search does
 * not converge. `problem.far` counts in both: an unknown that would have to go farther to be noticed is `loose`.
 */
export function adjusted(problem: LeastSquaresProblem, start: readonly number[]): Adjustment | undefined {
  const found = leastSquares(problem, start);
  if (!found.converged) return undefined;
  const { x, chi2, weighted, rows } = found;
  return { x, chi2, weighted, rows, ...cofactors(rows, start.length, problem.far) };
}
