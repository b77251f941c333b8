// biome-ignore-all lint/style/noNonNullAssertion: normal is square with an entry of x, gradient, step, columns, reach and pull a line; before and every column are as long as the residuals
import { type Rows, solveSymmetric } from "../numeric/index.ts";
import { normalEquations } from "./normal.ts";

export interface LeastSquaresProblem {
  /** Computed less read, in the reading's own unit, one entry a reading. */
  readonly residuals: (x: readonly number[]) => readonly number[];
  /**
   * Row i: how residual i moves with each unknown. Where absent, by central differences; an unknown with a prior then
   * counts as no smaller than its sd, one that starts at 0 as no smaller than 1.
   */
  readonly jacobian?: (x: readonly number[]) => Rows;
  /** One standard deviation of each reading (more than 0); 1 where absent. */
  readonly sd?: readonly number[];
  /** What an unknown is believed to be before any reading, in the unknowns' order. */
  readonly prior?: readonly ({ readonly at: number; readonly sd: number } | undefined)[];
  /**
   * How far each unknown could be from where it stands at the most. One that would have to move farther to change
   * the residuals by their sd is as good as free, and does not hold up the end.
   */
  readonly far?: readonly number[];
}

export type LeastSquares =
  | {
      readonly converged: true;
      readonly x: readonly number[];
      readonly iterations: number;
      /** Σ (residual/sd)², those of the priors included. */
      readonly chi2: number;
      /** Residuals over their sd, readings first, then priors. */
      readonly weighted: readonly number[];
      /** Their derivatives, over the same sd: what `cofactors` takes. */
      readonly rows: Rows;
    }
  | {
      readonly converged: false;
      readonly iterations: number;
      /** Σ (residual/sd)² where it gave up: how bad it was, not an answer. */
      readonly chi2: number;
      readonly why: "iterations" | "not finite";
    };

/**
 * Cosine between the residuals and the steepest column below which the sum is at its least: near the square root of
 * what a double resolves. Residuals of 1e-10 sd are nothing, whatever their angle.
 */
const LEVEL = 1e-9;
const NOTHING = 1e-10;

/** The same where no step betters the sum any more: rounding has the last word. */
const ROUNDED = { cosine: 1e-5, nothing: 1e-6 };

/**
 * The x near `start` that makes Σ (residual/sd)² least (Levenberg-Marquardt).
 *
 * Units: any; the unknowns need not be alike in size.
 * `limits`: iterations (500) and the cosine at which it stops (1e-9); a looser one where a rough place will do.
 * Range: a local least. What does not converge in `iterations` is told as such and gives no x. Unknowns that no
 * reading tells of stay where they are; `cofactors` says which.
 * Formula: (JᵀJ + λD²)δ = −Jᵀr, D the greatest column lengths seen, first step no longer than the start itself in
 * that measure, stop by cosines (J. J. Moré, The Levenberg-Marquardt algorithm, Lecture Notes in Mathematics 630,
 * 1978); λ by the gain ratio (H. B. Nielsen, Damping parameter in Marquardt's method, report IMM-REP-1999-05; both
 * from memory).
 * Accuracy: the reference problems of NIST to 7 digits (tests/outside/nist.test.ts).
 */
export function leastSquares(
  problem: LeastSquaresProblem,
  start: readonly number[],
  limits: { readonly iterations?: number; readonly cosine?: number } = {},
): LeastSquares {
  const { iterations: most = 500, cosine: flat = LEVEL } = limits;
  const { weigh, derive } = weighed(problem, start);
  let x = start;
  let weighted = weigh(x);
  let chi2 = sumOfSquares(weighted);
  let rows = derive(x);
  let reach = start.map(() => 0);
  let damping = 1e-3;
  let harder = 2;
  for (let iterations = 0; ; iterations++) {
    const { normal, gradient } = normalEquations(rows, weighted, x.length);
    const columns = normal.map((row, j) => Math.sqrt(row[j]!));
    if (![chi2, ...columns].every(Number.isFinite))
      return { converged: false, iterations, chi2, why: "not finite" };
    reach = reach.map((r, j) => Math.max(r, columns[j]!));
    const notable = columns.map((c, j) => Math.max(c, 1 / (problem.far?.[j] ?? Infinity)));
    const steepest = Math.max(0, ...notable.map((c, j) => (c > 0 ? Math.abs(gradient[j]!) / c : 0)));
    const level = (cosine: number, nothing = NOTHING): boolean =>
      steepest <= cosine * Math.sqrt(chi2) + nothing;
    if (level(flat)) return { converged: true, x, iterations, chi2, weighted, rows };
    if (iterations >= most) return { converged: false, iterations, chi2, why: "iterations" };

    for (;;) {
      const pull = reach.map((r) => damping * (r || 1) ** 2);
      const damped = normal.map((row, j) => row.map((v, k) => (j === k ? v + pull[j]! : v)));
      const step = solveSymmetric(damped, gradient);
      if (!step && !(damping < 1e30)) return { converged: false, iterations, chi2, why: "not finite" };
      if (!step || (iterations === 0 && damping < 1e15 && tooFar(step, x, reach))) {
        damping *= 2;
        continue;
      }
      const tried = x.map((v, j) => v - step[j]!);
      const triedWeighted = weigh(tried);
      const triedChi2 = sumOfSquares(triedWeighted);
      const promised = step.reduce((s, d, j) => s + d * (gradient[j]! + pull[j]! * d), 0);
      const gain = (chi2 - triedChi2) / promised;
      if (gain > 0) {
        [x, weighted, chi2, rows] = [tried, triedWeighted, triedChi2, derive(tried)];
        damping *= Math.max(1 / 3, 1 - (2 * gain - 1) ** 3);
        harder = 2;
        break;
      }
      if (promised <= 1e-13 * chi2 || !(damping < 1e30)) {
        if (level(ROUNDED.cosine, ROUNDED.nothing))
          return { converged: true, x, iterations, chi2, weighted, rows };
        if (!(damping < 1e30)) return { converged: false, iterations, chi2, why: "iterations" };
      }
      damping *= harder;
      harder *= 2;
    }
  }
}

const sumOfSquares = (v: readonly number[]): number => v.reduce((s, r) => s + r * r, 0);

/** A first step longer than the start itself, both measured in what they change, is a leap in the dark. */
function tooFar(step: readonly number[], x: readonly number[], reach: readonly number[]): boolean {
  const measure = (v: readonly number[]): number => Math.hypot(...v.map((c, j) => c * reach[j]!));
  const start = measure(x);
  return start > 0 && measure(step) > start;
}

/** Residuals and their derivatives over the standard deviations, priors after the readings. */
function weighed({ residuals, jacobian, sd, prior = [] }: LeastSquaresProblem, start: readonly number[]) {
  const by =
    jacobian ??
    differences(
      residuals,
      start.map((v, j) => prior[j]?.sd ?? (v === 0 ? 1 : 0)),
    );
  const believed = prior.flatMap((p, j) => (p ? [{ ...p, j }] : []));
  const over = (v: number, i: number): number => v / (sd?.[i] ?? 1);
  const scaled = (rows: Rows): Rows => (sd ? rows.map((row, i) => row.map((v) => over(v, i))) : rows);
  return {
    weigh: (x: readonly number[]): readonly number[] => [
      ...residuals(x).map(over),
      ...believed.map((p) => (x[p.j]! - p.at) / p.sd),
    ],
    derive: (x: readonly number[]): Rows => [
      ...scaled(by(x)),
      ...believed.map((p) => x.map((_, j) => (j === p.j ? 1 / p.sd : 0))),
    ],
  };
}

/** Central differences; the step is the cube root of what a double resolves, relative to the unknown. */
function differences(f: (x: readonly number[]) => readonly number[], least: readonly number[]) {
  return (x: readonly number[]): Rows => {
    const columns = x.map((v, j) => {
      // Of an unknown that has come to almost nothing a share would be lost in rounding.
      const h = 6e-6 * (Math.max(Math.abs(v), least[j]!) || 1);
      const [up, down] = [v + h, v - h];
      const at = (w: number): readonly number[] => f(x.map((u, k) => (k === j ? w : u)));
      const before = at(down);
      return at(up).map((a, i) => (a - before[i]!) / (up - down));
    });
    return (columns[0] ?? []).map((_, i) => columns.map((column) => column[i]!));
  };
}
