// biome-ignore-all lint/style/noNonNullAssertion: n unknowns and m rows of n numbers are given (Programme), basis and tableau have n of each, and every index runs below one of these.
/** A linear programme in a few unknowns: the most of c·x with aᵢ·x ≥ bᵢ and |x_k| ≤ box_k. */
export interface Programme {
  readonly c: readonly number[];
  /** Row by row, or already laid end to end (`flat`), which pays where many programmes share their rows. */
  readonly rows: readonly (readonly number[])[] | Float64Array;
  readonly atLeast: readonly number[];
  readonly box: readonly number[];
  /**
   * Rows that hold as equalities where the search is to begin, one an unknown, in place of the corner of the box that
   * c points to. c must be a mix of them with no positive weight, as at an answer to fewer rows; else the corner serves.
   */
  readonly from?: readonly number[];
}

export type Solved =
  | {
      readonly ok: true;
      readonly x: readonly number[];
      readonly value: number;
      /** Multipliers of the rows (≥ 0, most of them 0): which of them hold the answer back. */
      readonly held: ReadonlyMap<number, number>;
      /** Corners looked at on the way. */
      readonly rounds: number;
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
export function maximise({ c, rows, atLeast, box, from }: Programme): Solved {
  const n = c.length;
  const all = rows instanceof Float64Array ? rows : flat(rows, n);
  // No two multipliers may fall to 0 together, or it could go round in circles: the aims are told apart by a hair.
  const aims = c.map((ck, k) => ck + (ck < 0 ? -HAIR : HAIR) * (1 + ((k * 0.618034) % 1)));
  const begun = (from && beginAt(from, n, all, aims)) ?? cornerOf(aims);
  const { basis, lambda } = begun;
  let inverse: Float64Array | undefined = begun.inverse;
  const alpha = new Float64Array(n);
  const x = new Float64Array(n);
  const sides = Float64Array.from(basis, (j) => side(j, n, atLeast, box));
  let fresh = true;
  for (let round = 0; round < ROUNDS; round++) {
    if (!fresh && round % REFRESH === 0) {
      inverse = inverseOf(basis, n, all);
      fresh = true;
    }
    if (!inverse) return { ok: false, why: "no convergence" };
    for (let k = 0, at = 0; k < n; k++) {
      let sum = 0;
      for (let i = 0; i < n; i++, at++) sum += inverse[at]! * sides[i]!;
      x[k] = sum;
    }
    const entering = worst(x, all, atLeast, box, round);
    if (entering < 0) {
      if (!fresh) {
        // Not before it holds without what rounding has gathered.
        inverse = inverseOf(basis, n, all);
        fresh = true;
        continue;
      }
      const held = new Map<number, number>();
      basis.forEach((j, i) => {
        if (j >= 2 * n && lambda[i]! > 1e-7) held.set(j - 2 * n, lambda[i]!);
      });
      return {
        ok: true,
        x: Array.from(x),
        value: x.reduce((sum, v, k) => sum + v * c[k]!, 0),
        held,
        rounds: round,
      };
    }
    mixed(entering, inverse, all, alpha);
    const leave = leaving(alpha, lambda);
    if (leave < 0) return { ok: false, why: "infeasible" };
    const pivot = alpha[leave]!;
    const theta = lambda[leave]! / pivot;
    for (let i = 0; i < n; i++) lambda[i] = i === leave ? theta : Math.max(0, lambda[i]! - theta * alpha[i]!);
    basis[leave] = entering;
    sides[leave] = side(entering, n, atLeast, box);
    // One row of the basis changed: the inverse changes by one column's worth.
    for (let at = 0; at < n * n; at += n) {
      const v = inverse[at + leave]! / pivot;
      if (v !== 0) for (let i = 0; i < n; i++) inverse[at + i] = inverse[at + i]! - v * alpha[i]!;
      inverse[at + leave] = v;
    }
    fresh = false;
  }
  return { ok: false, why: "no convergence" };
}

interface Start {
  readonly basis: number[];
  /** Multipliers of the basis' rows. */
  readonly lambda: Float64Array;
  readonly inverse: Float64Array;
}

/** The corner of the box that the aims point to: every row of the basis is one of the box, its own inverse. */
function cornerOf(aims: readonly number[]): Start {
  const n = aims.length;
  const inverse = new Float64Array(n * n);
  aims.forEach((a, k) => {
    inverse[k * n + k] = a >= 0 ? 1 : -1;
  });
  return {
    basis: aims.map((a, k) => (a >= 0 ? k : n + k)),
    lambda: Float64Array.from(aims, Math.abs),
    inverse,
  };
}

/** Where these rows hold as equalities, if the aims are held back there. */
function beginAt(
  from: readonly number[],
  n: number,
  rows: Float64Array,
  aims: readonly number[],
): Start | undefined {
  const basis = from.map((i) => 2 * n + i);
  const inverse = inverseOf(basis, n, rows);
  if (!inverse) return undefined;
  const lambda = new Float64Array(n);
  for (let k = 0, at = 0; k < n; k++)
    for (let i = 0; i < n; i++, at++) lambda[i] = lambda[i]! + aims[k]! * inverse[at]!;
  return lambda.every((l) => l >= 0) ? { basis, lambda, inverse } : undefined;
}

/** Right side of constraint j as g·x ≤ h: j < n upper bounds, j < 2n lower bounds, the rest −aᵢ·x ≤ −bᵢ. */
const side = (j: number, n: number, atLeast: readonly number[], box: readonly number[]): number =>
  j < 2 * n ? box[j % n]! : -atLeast[j - 2 * n]!;

/** The entering constraint's row as a mix of those in the basis. */
function mixed(entering: number, inverse: Float64Array, rows: Float64Array, alpha: Float64Array): void {
  const n = alpha.length;
  if (entering < 2 * n) {
    const sign = entering < n ? 1 : -1;
    const at = (entering % n) * n;
    for (let i = 0; i < n; i++) alpha[i] = sign * inverse[at + i]!;
    return;
  }
  alpha.fill(0);
  const row = (entering - 2 * n) * n;
  for (let k = 0; k < n; k++) {
    const gk = -rows[row + k]!;
    const at = k * n;
    if (gk !== 0) for (let i = 0; i < n; i++) alpha[i] = alpha[i]! + inverse[at + i]! * gk;
  }
}

/** Whose multiplier falls to 0 first, or −1. */
function leaving(alpha: Float64Array, lambda: Float64Array): number {
  let leave = -1;
  let least = Infinity;
  for (let i = 0; i < alpha.length; i++) {
    const a = alpha[i]!;
    if (a <= 1e-9) continue;
    const ratio = lambda[i]! / a;
    if (ratio < least - 1e-15 || (ratio <= least + 1e-15 && a > alpha[leave]!)) {
      least = Math.min(least, ratio);
      leave = i;
    }
  }
  return leave;
}

/** The inverse of the basis' rows, laid end to end. */
function inverseOf(basis: readonly number[], n: number, rows: Float64Array): Float64Array | undefined {
  const g = new Float64Array(n * n);
  basis.forEach((j, i) => {
    if (j < 2 * n) g[i * n + (j % n)] = j < n ? 1 : -1;
    else for (let k = 0, at = (j - 2 * n) * n; k < n; k++) g[i * n + k] = -rows[at + k]!;
  });
  return invert(g, n);
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
  x: Float64Array,
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

/** The inverse of a small matrix (rows end to end; it is used up) by elimination with row exchange; undefined where it has none. */
function invert(a: Float64Array, n: number): Float64Array | undefined {
  const inverse = new Float64Array(n * n);
  for (let i = 0; i < n; i++) inverse[i * n + i] = 1;
  for (let i = 0; i < n; i++) {
    let p = i;
    for (let r = i + 1; r < n; r++) if (Math.abs(a[r * n + i]!) > Math.abs(a[p * n + i]!)) p = r;
    const pivot = a[p * n + i]!;
    if (Math.abs(pivot) < 1e-13) return undefined;
    if (p !== i) {
      exchange(a, n, i, p);
      exchange(inverse, n, i, p);
    }
    for (let k = 0; k < n; k++) {
      a[i * n + k] = a[i * n + k]! / pivot;
      inverse[i * n + k] = inverse[i * n + k]! / pivot;
    }
    for (let r = 0; r < n; r++) {
      const f = a[r * n + i]!;
      if (r === i || f === 0) continue;
      for (let k = 0; k < n; k++) {
        a[r * n + k] = a[r * n + k]! - f * a[i * n + k]!;
        inverse[r * n + k] = inverse[r * n + k]! - f * inverse[i * n + k]!;
      }
    }
  }
  return inverse;
}

function exchange(rows: Float64Array, n: number, i: number, p: number): void {
  for (let k = 0; k < n; k++) {
    const v = rows[i * n + k]!;
    rows[i * n + k] = rows[p * n + k]!;
    rows[p * n + k] = v;
  }
}
