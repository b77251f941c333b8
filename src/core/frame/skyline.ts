// biome-ignore-all lint/style/noNonNullAssertion: first and diagonal have an entry a row, and values reaches to the last diagonal; j and k run from first[i] to i, so that every index lies in the row
/** A symmetric matrix: of each row what lies from its first entry other than 0 to the diagonal. */
export interface Skyline {
  readonly first: Int32Array;
  /** Where each row's diagonal is in `values`. */
  readonly diagonal: Int32Array;
  readonly values: Float64Array;
}

/** An empty matrix with room from `first[i]` to i in each row i. */
export function skyline(first: Int32Array): Skyline {
  const diagonal = new Int32Array(first.length);
  let at = -1;
  first.forEach((f, i) => {
    at += i - f + 1;
    diagonal[i] = at;
  });
  return { first, diagonal, values: new Float64Array(at + 1) };
}

export const addTo = ({ diagonal, values }: Skyline, i: number, j: number, v: number): void => {
  const [row, column] = i >= j ? [i, j] : [j, i];
  const at = diagonal[row]! - (row - column);
  values[at] = values[at]! + v;
};

/** A pivot below this share of its own row's diagonal is none. */
const NO_PIVOT = 1e-11;

/**
 * LDLᵀ of a matrix in place, row by row inside its skyline, where all fill-in stays (E. L. Wilson and K.-J. Bathe;
 * Bathe, Finite Element Procedures, 1996, section 8.2.3, from memory). False where it is not positive definite: what
 * it stands for can move without being held.
 */
export function factor({ first, diagonal, values }: Skyline): boolean {
  for (let i = 0; i < first.length; i++) {
    const fi = first[i]!;
    const oi = diagonal[i]! - i;
    const was = values[diagonal[i]!]!;
    for (let j = fi; j < i; j++) {
      const fj = first[j]!;
      const oj = diagonal[j]! - j;
      let sum = values[oi + j]!;
      for (let k = Math.max(fi, fj); k < j; k++) sum -= values[oi + k]! * values[oj + k]!;
      values[oi + j] = sum;
    }
    let d = was;
    for (let k = fi; k < i; k++) {
      const g = values[oi + k]!;
      const l = g / values[diagonal[k]!]!;
      d -= l * g;
      values[oi + k] = l;
    }
    if (!(d > NO_PIVOT * was)) return false;
    values[diagonal[i]!] = d;
  }
  return true;
}

/** Solves with a factored matrix, in place. */
export function solve({ first, diagonal, values }: Skyline, b: Float64Array): void {
  const n = first.length;
  for (let i = 0; i < n; i++) {
    const o = diagonal[i]! - i;
    let sum = b[i]!;
    for (let k = first[i]!; k < i; k++) sum -= values[o + k]! * b[k]!;
    b[i] = sum;
  }
  for (let i = 0; i < n; i++) b[i] = b[i]! / values[diagonal[i]!]!;
  for (let i = n - 1; i >= 0; i--) {
    const o = diagonal[i]! - i;
    for (let k = first[i]!; k < i; k++) b[k] = b[k]! - values[o + k]! * b[i]!;
  }
}

/**
 * An order of nodes in which neighbours stand close together, so that the skyline is low: breadth first from a node
 * at the rim, neighbours of low degree first, the whole turned round (E. Cuthill and J. McKee, ACM National Conference
 * 1969; A. George 1971 for the turning round).
 */
export function lowOrder(neighbours: readonly (readonly number[])[]): readonly number[] {
  const degree = (i: number): number => neighbours[i]!.length;
  const out: number[] = [];
  const seen = new Uint8Array(neighbours.length);
  const walk = (start: number): readonly number[] => {
    const here = new Set([start]);
    for (const i of here) {
      for (const j of [...neighbours[i]!].sort((a, b) => degree(a) - degree(b))) if (!seen[j]) here.add(j);
    }
    return [...here];
  };
  for (let i = 0; i < neighbours.length; i++) {
    if (seen[i]) continue;
    // The last node met from anywhere is at the rim.
    const any = walk(i);
    const part = walk(any[any.length - 1]!);
    for (const j of part) seen[j] = 1;
    out.push(...part);
  }
  return out.reverse();
}
