import { CholeskyDecomposition, Matrix } from "ml-matrix";

export type Rows = readonly (readonly number[])[];

/** JᵀJ and Jᵀr, J by its rows; rows that touch few unknowns cost little. */
export function normalEquations(rows: Rows, r: readonly number[], n: number) {
  const normal = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const gradient = new Array<number>(n).fill(0);
  rows.forEach((row, i) => {
    const touched: number[] = [];
    for (let j = 0; j < n; j++) if (row[j] !== 0) touched.push(j);
    for (const j of touched) {
      gradient[j]! += row[j]! * r[i]!;
      const line = normal[j]!;
      for (const k of touched) line[k]! += row[j]! * row[k]!;
    }
  });
  return { normal, gradient };
}

/** x of A x = b, A symmetric and positive definite. */
export function solveSymmetric(a: Rows, b: readonly number[]): readonly number[] {
  if (b.length === 0) return [];
  const factor = new CholeskyDecomposition(new Matrix(a.map((row) => [...row])));
  return factor.solve(Matrix.columnVector([...b])).to1DArray();
}

/**
 * A⁻¹ of a symmetric matrix, undefined where it is not positive definite: from A = LLᵀ, A⁻¹ = MᵀM with M = L⁻¹ (the
 * library's own way of solving for every column is ten times slower, measured with 180 unknowns).
 */
export function inverseSymmetric(a: Rows): number[][] | undefined {
  const n = a.length;
  const inverse = a.map(() => new Array<number>(n).fill(0));
  if (n === 0) return inverse;
  const factor = new CholeskyDecomposition(new Matrix(a.map((row) => [...row])));
  if (!factor.isPositiveDefinite()) return undefined;
  const lower = factor.lowerTriangularMatrix.to2DArray();
  const m = lower.map((row, i) => row.map((_, j) => (i === j ? 1 : 0)));
  for (let i = 0; i < n; i++) {
    const row = m[i]!;
    for (let k = 0; k < i; k++) {
      const l = lower[i]![k]!;
      if (l !== 0) for (let j = 0; j <= k; j++) row[j]! -= l * m[k]![j]!;
    }
    for (let j = 0; j <= i; j++) row[j]! /= lower[i]![i]!;
  }
  for (const row of m) {
    for (let i = 0; i < n; i++) {
      const v = row[i]!;
      if (v !== 0) for (let j = 0; j <= i; j++) inverse[i]![j]! += v * row[j]!;
    }
  }
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) inverse[j]![i] = inverse[i]![j]!;
  return inverse;
}
