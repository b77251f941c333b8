import { CRITICAL, leastSquares } from "../estimate/index.ts";
import type { Equation, Network } from "./equation.ts";
import { type Model, networkOf, residualOf, residualsOf, rowOf, unknownsOf } from "./model.ts";

/** Places on which most readings agree. */
export interface Consensus {
  readonly network: Network;
  /** Σ c² ln(1 + (residual/(c·sd))²). */
  readonly cost: number;
  /** Equations that are out by more than the critical value. */
  readonly astray: number;
}

/** Residuals of this many sd begin to count less (about 95 % as sharp as squares where there are no slips). */
const C = 2.385;

/**
 * The places near `start` on which most readings agree; what is grossly out hardly pulls.
 *
 * Formula: least of Σ c² ln(1 + (r/c)²), r = residual/sd (Cauchy's), written as a sum of squares of
 * c·√ln(1 + (r/c)²) with the residual's sign, so that the same method finds it. c from P. Holland and R. Welsch,
 * Communications in Statistics A6 (1977) 813 (from memory). A rough answer: it only chooses where to look.
 */
export function consensusFrom(
  model: Model,
  equations: readonly Equation[],
  start: Network,
): Consensus | undefined {
  const over = (x: readonly number[]): number[] =>
    residualsOf(equations, networkOf(model, x)).map((r) => r / C);
  const found = leastSquares(
    {
      residuals: (x) => over(x).map(dampened),
      jacobian: (x) => {
        const network = networkOf(model, x);
        return equations.map((e) => {
          const k = slopeOf(residualOf(e, network) / C);
          return rowOf(model, e, network).map((v) => v * k);
        });
      },
    },
    unknownsOf(model, start),
    { iterations: 100, cosine: 1e-3 },
  );
  if (!found.converged) return undefined;
  const astray = over(found.x).filter((r) => Math.abs(r) * C > CRITICAL).length;
  return { network: networkOf(model, found.x), cost: found.chi2, astray };
}

const dampened = (r: number): number => C * Math.sign(r) * Math.sqrt(Math.log1p(r * r));

/** How the dampened residual moves with the residual: 1 near 0. */
const slopeOf = (r: number): number =>
  Math.abs(r) < 1e-6 ? 1 : Math.abs(r) / (1 + r * r) / Math.sqrt(Math.log1p(r * r));
