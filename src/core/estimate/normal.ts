// biome-ignore-all lint/style/noNonNullAssertion: every row has n entries and r one a row, by the docstring; normal is n by n
import type { Rows } from "../numeric/index.ts";

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
