// biome-ignore-all lint/style/noNonNullAssertion: normal is n by n with n entries in size, kept holds indices below n, and inverse and every direction are as long as kept
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { inverseSymmetric, type Rows } from "../numeric/index.ts";
import { normalEquations } from "./normal.ts";

export interface Cofactors {
  /** (JᵀWJ)⁻¹, one row an unknown: the a-priori covariance of the unknowns that are determined. */
  readonly covariance: Rows;
  /** Independent combinations of the unknowns that the readings determine. */
  readonly rank: number;
  /** Unknowns, by index, that the readings leave free. */
  readonly loose: readonly number[];
}

/** Eigenvalue of the normal matrix, columns scaled to 1, below which a combination counts as not determined. */
const RANKLESS = 1e-10;

/** Share of an unknown in a free direction (of length 1) above which it is free itself. */
const SHARE = 1e-4;

/**
 * What readings say of the unknowns: covariance, rank, and which unknowns they leave free.
 *
 * `rows`: derivatives of the readings, each over its standard deviation, one entry for each of the `n` unknowns.
 * `far`: how far each unknown could be from where it stands at the most; one that would have to move farther to
 * change the readings by their standard deviation counts as free.
 * Where something is free the covariance is a pseudo-inverse: right for every combination that is determined.
 * Formula: eigenvalues of D⁻¹JᵀJD⁻¹, D the column lengths; a Cholesky factor where that is far from singular.
 */
export function cofactors(rows: Rows, n: number, far?: readonly number[]): Cofactors {
  const noResiduals = rows.map(() => 0);
  const { normal } = normalEquations(rows, noResiduals, n);
  const size = normal.map((row, j) => {
    const length = Math.sqrt(row[j]!);
    return length * (far?.[j] ?? Infinity) >= 1 ? length : 0;
  });
  const kept = size.flatMap((s, j) => (s > 0 ? [j] : []));
  const scaled = kept.map((j) => kept.map((k) => normal[j]![k]! / (size[j]! * size[k]!)));
  const { inverse, free } = invert(scaled);
  const covariance = normal.map(() => new Array<number>(n).fill(0));
  kept.forEach((j, a) => {
    kept.forEach((k, b) => {
      covariance[j]![k] = inverse[a]![b]! / (size[j]! * size[k]!);
    });
  });
  const loose = size.flatMap((s, j) => {
    const at = kept.indexOf(j);
    return s === 0 || free.some((direction) => Math.abs(direction[at]!) > SHARE) ? [j] : [];
  });
  return { covariance, rank: kept.length - free.length, loose };
}

/** The (pseudo-)inverse of a symmetric matrix with ones on its diagonal, and the directions that it loses. */
function invert(a: Rows): { readonly inverse: Rows; readonly free: Rows } {
  const inverse = inverseSymmetric(a);
  // The least eigenvalue is no less than one over the inverse's trace; well above the limit there is no need to ask.
  if (inverse && inverse.reduce((trace, row, i) => trace + row[i]!, 0) * RANKLESS < 0.01) {
    return { inverse, free: [] };
  }
  const matrix = new Matrix(a.map((row) => [...row]));
  const { eigenvectorMatrix: v, realEigenvalues: values } = new EigenvalueDecomposition(matrix, {
    assumeSymmetric: true,
  });
  const least = RANKLESS * Math.max(...values);
  const free = values.flatMap((value, j) => (value > least ? [] : [v.getColumn(j)]));
  const stretched = v.clone();
  values.forEach((value, j) => {
    stretched.mulColumn(j, value > least ? 1 / value : 0);
  });
  return { inverse: stretched.mmul(v.transpose()).to2DArray(), free };
}
