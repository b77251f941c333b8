// biome-ignore-all lint/style/noNonNullAssertion: n unknowns and m rows of n numbers are given (Programme), basis and tableau have n of each, and every index runs below one of these.
/** A linear programme in a few unknowns: the most of c·x with aᵢ·x ≥ bᵢ and |x_k| ≤ box_k. */
export interface Programme {
  readonly c: readonly number[];
  /** Row by row, or already laid end to end (`flat`), which pays where many programmes share their rows. */
  readonly rows: readonly (readonly number[])[] | Float64Array;
  readonly atLeast: readonly number[];
  readonly box: readonly number[];
}

export type Solved =
  | {
      readonly ok: true;
      readonly x: readonly number[];
      readonly value: number;
      /** Multipliers of the rows (≥ 0, most of them 0): which of them hold the answer back. */
      readonly held: ReadonlyMap<number, number>;
    }
  | { readonly ok: false; readonly why: "infeasible" | "no convergence" };

/** Rows are of length about 1 (normals, levers in units of the bar's size): a violation below this is rounding. */
const TIGHT = 1e-10;
const ROUNDS = 2000;
/** Rounds after which the inverse is worked out anew. */
const REFRESH = 30;
/** An answer may fall short of the most by this times the box, summed over the unknowns. */
const HAIR = 1e-9;

/**
 * Solves a programme of a few unknowns (here 3 to 7) and some hundreds of rows by the dual simplex method for
 * bounded unknowns (C. E. Lemke, Naval Research Logistics Quarterly 1, 1954, 36-47): starts from the corner of the
 * box that c points to, takes in the row that is violated most, lets go the one whose multiplier falls to 0 first.
 * The answer is checked against every row before it is returned; one that did not converge is never returned.
 *
 * Why own code: of the solvers on the registry HiGHS is well kept and right, but its text interface needs about
 * 50 ms for one of these; a search asks thousands. The tests compare both on random programmes.
 */
export function maximise({ c, rows, atLeast, box }: Programme): Solved {
  const n = c.length;
  const all = rows instanceof Float64Array ? rows : flat(rows, n);
  // Constraint j as g·x ≤ h: j < n upper bounds, j < 2n lower bounds, the rest −aᵢ·x ≤ −bᵢ.
  const g = (j: number, k: number): number =>
    j < n ? (j === k ? 1 : 0) : j < 2 * n ? (j - n === k ? -1 : 0) : -all[(j - 2 * n) * n + k]!;
  const h = (j: number): number => (j < 2 * n ? box[j % n]! : -atLeast[j - 2 * n]!);
  // No two multipliers may fall to 0 together, or it could go round in circles: the aims are told apart by a hair.
  const aims = c.map((ck, k) => ck + (ck < 0 ? -HAIR : HAIR) * (1 + ((k * 0.618034) % 1)));
  const basis = aims.map((a, k) => (a >= 0 ? k : n + k));
  let lambda = aims.map((a) => Math.abs(a));
  let inverse = invert(basis.map((j) => c.map((_, k) => g(j, k))));
  let fresh = true;
  const x = new Array<number>(n).fill(0);
  for (let round = 0; round < ROUNDS; round++) {
    if (!fresh && round % REFRESH === 0) {
      inverse = invert(basis.map((j) => c.map((_, k) => g(j, k))));
      fresh = true;
    }
    if (!inverse) return { ok: false, why: "no convergence" };
    for (let k = 0; k < n; k++) {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += inverse[k]![i]! * h(basis[i]!);
      x[k] = sum;
    }
    const entering = worst(x, all, atLeast, box, round);
    if (entering < 0) {
      if (!fresh) {
        // Not before it holds without what rounding has gathered.
        inverse = invert(basis.map((j) => c.map((_, k) => g(j, k))));
        fresh = true;
        continue;
      }
      const held = new Map<number, number>();
      basis.forEach((j, i) => {
        if (j >= 2 * n && lambda[i]! > 1e-7) held.set(j - 2 * n, lambda[i]!);
      });
      return { ok: true, x, value: x.reduce((sum, v, k) => sum + v * c[k]!, 0), held };
    }
    // The entering row as a mix of those in the basis.
    const alpha = new Array<number>(n).fill(0);
    for (let k = 0; k < n; k++) {
      const gk = g(entering, k);
      if (gk !== 0) for (let i = 0; i < n; i++) alpha[i] = alpha[i]! + inverse[k]![i]! * gk;
    }
    let leave = -1;
    let least = Infinity;
    for (let i = 0; i < n; i++) {
      const a = alpha[i]!;
      if (a <= 1e-9) continue;
      const ratio = lambda[i]! / a;
      if (ratio < least - 1e-15 || (ratio <= least + 1e-15 && a > alpha[leave]!)) {
        least = Math.min(least, ratio);
        leave = i;
      }
    }
    if (leave < 0) return { ok: false, why: "infeasible" };
    const pivot = alpha[leave]!;
    const theta = lambda[leave]! / pivot;
    lambda = lambda.map((l, i) => (i === leave ? theta : Math.max(0, l - theta * alpha[i]!)));
    basis[leave] = entering;
    // One row of the basis changed: the inverse changes by one column's worth.
    for (const row of inverse) {
      const v = row[leave]! / pivot;
      for (let i = 0; i < n; i++) row[i] = i === leave ? v : row[i]! - v * alpha[i]!;
    }
    fresh = false;
  }
  return { ok: false, why: "no convergence" };
}

/** Rows of n numbers laid end to end. */
export function flat(rows: readonly (readonly number[])[], n: number): Float64Array {
  const out = new Float64Array(rows.length * n);
  let at = 0;
  for (const row of rows) for (let k = 0; k < n; k++) out[at++] = row[k]!;
  return out;
}

/** The constraint that x violates most (after many rounds the first one, which cannot cycle), or −1. */
function worst(
  x: readonly number[],
  rows: Float64Array,
  atLeast: readonly number[],
  box: readonly number[],
  round: number,
): number {
  const n = x.length;
  let found = -1;
  let most = TIGHT;
  const see = (j: number, over: number): void => {
    if (over > most && !(round > ROUNDS / 4 && found >= 0)) {
      most = over;
      found = j;
    }
  };
  for (let k = 0; k < n; k++) {
    see(k, x[k]! - box[k]!);
    see(n + k, -x[k]! - box[k]!);
  }
  for (let i = 0, at = 0; i < atLeast.length; i++, at += n) {
    let short = atLeast[i]!;
    for (let k = 0; k < n; k++) short -= rows[at + k]! * x[k]!;
    if (short > most) see(2 * n + i, short);
  }
  return found;
}

/** The inverse of a small matrix by elimination with row exchange; undefined where it has none. */
function invert(m: readonly (readonly number[])[]): number[][] | undefined {
  const n = m.length;
  const a = m.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let i = 0; i < n; i++) {
    let p = i;
    for (let r = i + 1; r < n; r++) if (Math.abs(a[r]![i]!) > Math.abs(a[p]![i]!)) p = r;
    const pivot = a[p]![i]!;
    if (Math.abs(pivot) < 1e-13) return undefined;
    [a[i], a[p]] = [a[p]!, a[i]!];
    const row = a[i]!;
    for (let k = i; k < 2 * n; k++) row[k] = row[k]! / pivot;
    for (let r = 0; r < n; r++) {
      if (r === i) continue;
      const other = a[r]!;
      const f = other[i]!;
      if (f !== 0) for (let k = i; k < 2 * n; k++) other[k] = other[k]! - f * row[k]!;
    }
  }
  return a.map((row) => row.slice(n));
}
