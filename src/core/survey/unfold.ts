import { leastSquares } from "../estimate/index.ts";
import type { Equation, Network } from "./equation.ts";
import { type Model, networkOf, rowOf, unknownsOf } from "./model.ts";

/** The fourth direction is closed in steps: how far a point may stand off in it, as a share of the car's extent. */
const CLOSING = [0.1, 0.03, 0.01, 0.003, 0.001];

/** Errors are taken so many times larger on the way: a place need only be near. */
const SOFT = 10;

/**
 * A better start than one in which points stand on the wrong side of each other: found by way of a fourth direction.
 *
 * In space a point cannot come to the other side of the plane of its neighbours without tearing its tapes; with a
 * fourth direction to go through it turns over freely. Every point that is not known beforehand is given a
 * place in it by chance, lengths of tapes are taken in four directions, and the fourth is closed step by step.
 * A rough answer that only chooses where to look; undefined where it gets stuck.
 */
export function unfolded(
  model: Model,
  equations: readonly Equation[],
  start: Network,
  random: () => number,
): Network | undefined {
  const free = model.known.flatMap((point, p) => (point.at ? [] : [p]));
  const slots = new Map(free.map((p, k) => [p, model.unknowns + k]));
  const problem = fourfold(model, equations, slots);
  let x: readonly number[] = [
    ...unknownsOf(model, start),
    ...free.map(() => (random() - 0.5) * 0.3 * model.extent),
  ];
  for (const share of CLOSING) {
    const off = free.map(() => ({ at: 0, sd: share * model.extent }));
    const prior = [...new Array<undefined>(model.unknowns).fill(undefined), ...off];
    const found = leastSquares({ ...problem, prior }, x, { iterations: 200, cosine: 0.01 });
    if (!found.converged) return undefined;
    x = found.x;
  }
  return networkOf(model, x.slice(0, model.unknowns));
}

/** The equations with each tape taken in four directions; `slots` are the unknowns of the points' fourth. */
function fourfold(model: Model, equations: readonly Equation[], slots: ReadonlyMap<number, number>) {
  const apart = (e: Equation, x: readonly number[]): number => {
    const [w = 0, v = 0] = e.points.map((p) => x[slots.get(p) ?? -1] ?? 0);
    return e.mark === undefined ? 0 : w - v;
  };
  return {
    residuals: (x: readonly number[]) => {
      const network = networkOf(model, x);
      return equations.map((e) => {
        const { value } = e.observe(network);
        const { mark } = e;
        const wide = mark === undefined ? value : Math.hypot(value - mark, apart(e, x)) + mark;
        return (wide - e.read) / (SOFT * e.sd);
      });
    },
    jacobian: (x: readonly number[]) => {
      const network = networkOf(model, x);
      return equations.map((e) => {
        const row = rowOf(model, e, network);
        const w = apart(e, x);
        const value = e.observe(network).value - (e.mark ?? 0);
        const length = Math.hypot(value, w);
        const wide = new Array<number>(model.unknowns + slots.size).fill(0);
        for (const [j, v] of row.entries())
          if (v !== 0) wide[j] = (w === 0 ? v : (v * value) / length) / SOFT;
        e.points.forEach((p, k) => {
          const slot = slots.get(p);
          if (slot !== undefined && w !== 0) wide[slot] = (k === 0 ? w : -w) / (length * SOFT * e.sd);
        });
        return wide;
      });
    },
  };
}
