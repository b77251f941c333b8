// biome-ignore-all lint/style/noNonNullAssertion: A is square and b as long; line i of the lower triangle has i + 1 entries and is indexed up to i
/** A matrix by its rows. */
export type Rows = readonly (readonly number[])[];

/**
 * L of A = LLᵀ (Cholesky), A symmetric; undefined where A is not positive definite.
 * Own, because the library's is five times slower with 180 unknowns, and all that a survey waits for.
 */
function lowerOf(a: Rows): Float64Array[] | undefined {
  const lower = a.map((_, i) => new Float64Array(i + 1));
  for (let i = 0; i < a.length; i++) {
    const [row, line] = [a[i]!, lower[i]!];
    for (let j = 0; j <= i; j++) {
      const other = lower[j]!;
      let sum = row[j]!;
      for (let k = 0; k < j; k++) sum -= line[k]! * other[k]!;
      if (j < i) line[j] = sum / other[j]!;
      else if (sum > 0) line[j] = Math.sqrt(sum);
      else return undefined;
    }
  }
  return lower;
}

/** x of A x = b, A symmetric; undefined where A is not positive definite. */
export function solveSymmetric(a: Rows, b: readonly number[]): readonly number[] | undefined {
  const lower = lowerOf(a);
  if (!lower) return undefined;
  const x = [...b];
  for (let i = 0; i < x.length; i++) {
    const line = lower[i]!;
    for (let k = 0; k < i; k++) x[i]! -= line[k]! * x[k]!;
    x[i]! /= line[i]!;
  }
  for (let i = x.length - 1; i >= 0; i--) {
    const line = lower[i]!;
    x[i]! /= line[i]!;
    for (let k = 0; k < i; k++) x[k]! -= line[k]! * x[i]!;
  }
  return x;
}

/** A⁻¹ of a symmetric matrix, undefined where it is not positive definite: MᵀM with M = L⁻¹. */
export function inverseSymmetric(a: Rows): number[][] | undefined {
  const n = a.length;
  const lower = lowerOf(a);
  if (!lower) return undefined;
  const m = lower.map((_, i) => new Float64Array(i + 1));
  for (let i = 0; i < n; i++) {
    const [row, line] = [m[i]!, lower[i]!];
    row[i] = 1;
    for (let k = 0; k < i; k++) {
      const [l, other] = [line[k]!, m[k]!];
      if (l !== 0) for (let j = 0; j <= k; j++) row[j]! -= l * other[j]!;
    }
    for (let j = 0; j <= i; j++) row[j]! /= line[i]!;
  }
  const inverse = a.map(() => new Array<number>(n).fill(0));
  for (const row of m) {
    for (let i = 0; i < row.length; i++) {
      const [v, line] = [row[i]!, inverse[i]!];
      if (v !== 0) for (let j = 0; j <= i; j++) line[j]! += v * row[j]!;
    }
  }
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) inverse[j]![i] = inverse[i]![j]!;
  return inverse;
}
