import { chiSquareLimit, cofactors, type LeastSquares, leastSquares } from "../estimate/index.ts";
import { type Rows, seeded } from "../numeric/index.ts";
import type { Equation, Network } from "./equation.ts";
import { farOf, type Model, networkOf, residualsOf, rowsOf, unknownsOf } from "./model.ts";
import { type Consensus, consensusFrom } from "./robust.ts";
import { repaired, replaced, startNetwork, startNetworks } from "./start.ts";
import { unfolded } from "./unfold.ts";

type Solved = Extract<LeastSquares, { converged: true }>;

/** One least-squares solution and what it tells of itself. */
export interface Fit {
  readonly model: Model;
  readonly equations: readonly Equation[];
  readonly network: Network;
  readonly chi2: number;
  readonly freedom: number;
  readonly covariance: Rows;
  /** Derivatives over standard deviations, one row an equation. */
  readonly rows: Rows;
  /** Residuals over standard deviations. */
  readonly weighted: readonly number[];
  /** Unknowns that the readings leave free. */
  readonly loose: ReadonlySet<number>;
}

/** Gross slips make the way down long; so many unknowns make each step of it long, too. */
export const LARGE = 60;

/** The least of the sum of squares near a network; undefined where none is reached. */
export function settleFrom(model: Model, equations: readonly Equation[], start: Network): Solved | undefined {
  const found = leastSquares(
    {
      far: farOf(model),
      residuals: (x) => residualsOf(equations, networkOf(model, x)),
      jacobian: (x) => rowsOf(model, equations, networkOf(model, x)),
    },
    unknownsOf(model, start),
    { iterations: model.unknowns > LARGE ? 300 : 1500 },
  );
  return found.converged ? found : undefined;
}

/** The solution near a network with its covariance, freedom and free unknowns. */
export function fitFrom(model: Model, equations: readonly Equation[], start: Network): Fit | undefined {
  const solved = settleFrom(model, equations, start);
  if (!solved) return undefined;
  const far = farOf(model);
  const { covariance, rank, loose } = cofactors(solved.rows, model.unknowns, far);
  // An error as large as the whole car leaves a coordinate as free as no reading at all.
  // biome-ignore lint/style/noNonNullAssertion: a covariance is square, with a line and a distance for each unknown
  const vague = covariance.flatMap((row, j) => (Math.sqrt(row[j]!) > far[j]! ? [j] : []));
  return {
    model,
    equations,
    network: networkOf(model, solved.x),
    chi2: solved.chi2,
    freedom: equations.length - rank,
    covariance,
    rows: solved.rows,
    weighted: solved.weighted,
    loose: new Set([...loose, ...vague]),
  };
}

/** χ² that chance exceeds once in a thousand; where nothing is left over to check by, next to nothing. */
export const credible = (freedom: number): number => (freedom > 0 ? chiSquareLimit(0.999, freedom) : 0.01);

/** Starts by chance, where the first does not serve. */
const MANY_TRIES = 40;

/** Where there are slips a way to place the points may have two readings far out and yet be the right one. */
const OUTDONE = 25;
const FEW_TRIES = 4;

/** Share of equations out of step up to which a place or two set right may set all right. */
const NEARLY = 0.1;

/** Where most readings agree near a start, points that stand badly placed anew among their neighbours. */
function agreedFrom(
  model: Model,
  equations: readonly Equation[],
  start: Network,
  random: () => number,
): Consensus | undefined {
  let best = consensusFrom(model, equations, start);
  for (const better of [replaced, repaired]) {
    for (let again = 0; again < 3 && best && best.astray > 0; again++) {
      // Where much is out of step there is nothing yet to repair.
      if (better === repaired && best.astray > NEARLY * equations.length) break;
      const moved = better(model, equations, best.network, random);
      const next = moved && consensusFrom(model, equations, moved);
      if (!next || next.cost > best.cost - 0.01) break;
      best = next;
    }
  }
  return best;
}

/** Share of equations that may be out of step without another start being tried. */
const FEW = 0.03;

/** Share of equations out of step beyond which a large survey was not disentangled. */
const TANGLED = 0.25;

export interface Found {
  readonly fit: Fit;
  /** Where most readings agree, found where not all do: what the slips are measured by. */
  readonly consensus: Network;
}

/** No least sum of squares was reached. */
export interface Lost {
  readonly fit?: undefined;
  readonly consensus?: Network;
  /** So many equations are out of step at the best places found, that they are none. */
  readonly astray?: number;
}

/**
 * The solution from all readings, with starts found in the readings themselves.
 *
 * One start serves where its solution is as good as the stated errors promise. Where it is not, there are slips, and
 * the smallest sum of squares may well lie at a place that no reading supports. Then the places on which most readings
 * agree are looked for (`consensusFrom`), from more starts by seeded chance, until the best has come back three times or
 * the tries are spent (fewer in a large survey), and the sum of squares is made least from there.
 */
export function bestFit(model: Model, equations: readonly Equation[]): Found | Lost {
  const random = seeded(20_260_101);
  const first = startNetwork(model, equations, random);
  const fit = fitFrom(model, equations, first);
  if (fit && fit.chi2 <= credible(fit.freedom)) return { fit, consensus: fit.network };

  let best: Consensus | undefined;
  let seen = 0;
  const consider = (start: Network | undefined): void => {
    const found = start && agreedFrom(model, equations, start, random);
    if (!found) return;
    if (best && Math.abs(found.cost - best.cost) < 0.01) seen++;
    else if (!best || found.cost < best.cost) [best, seen] = [found, 1];
  };
  const isLarge = model.unknowns > LARGE;
  // In a small survey one reading out of step may be all that tells a wrong solution from the right one.
  const isGood = ({ astray }: Consensus): boolean => astray <= (isLarge ? FEW * equations.length : 0);
  const done = (): boolean => best !== undefined && (seen >= 3 || isGood(best));
  consider(first);
  if (!isLarge && !done())
    for (const start of startNetworks(model, equations, random, OUTDONE)) if (!done()) consider(start);
  for (let i = 0; i < (isLarge ? FEW_TRIES : MANY_TRIES) && !done(); i++) {
    const start = startNetwork(model, equations, random, true);
    // So many points cannot all come to stand on the right side of each other by chance.
    consider(isLarge ? unfolded(model, equations, start, random) : start);
  }
  if (isLarge && best && best.astray > TANGLED * equations.length) return { astray: best.astray };
  if (!best) return fit ? { fit, consensus: fit.network } : {};
  const agreed = fitFrom(model, equations, best.network) ?? fit;
  return agreed ? { fit: agreed, consensus: best.network } : { consensus: best.network };
}
