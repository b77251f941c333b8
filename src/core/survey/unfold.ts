import { leastSquares } from "../numeric/index.ts";
import type { Equation, Scene } from "./equation.ts";
import { type Model, rowsOf, sceneOf, unknownsOf } from "./model.ts";

/** The fourth direction is closed in steps: how far a point may stand off in it, as a share of the car's extent. */
const CLOSING = [0.1, 0.03, 0.01, 0.003, 0.001];

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
  start: Scene,
  random: () => number,
): Scene | undefined {
  const free = model.known.flatMap((point, p) => (point.at ? [] : [p]));
  const slot = new Map(free.map((p, k) => [p, model.unknowns + k]));
  const n = model.unknowns;
  const off = (e: Equation, x: readonly number[]): number => {
    const [w, v = 0] = e.points.map((p) => x[slot.get(p) ?? -1] ?? 0);
    return e.isTape ? (w ?? 0) - v : 0;
  };
  let x: readonly number[] = [
    ...unknownsOf(model, start),
    ...free.map(() => (random() - 0.5) * Number(process.env.W0 ?? 0.3) * model.extent),
  ];
  for (const share of CLOSING) {
    const found = leastSquares(
      {
        residuals: (at) => {
          const scene = sceneOf(model, at);
          return equations.map((e) => Math.hypot(e.observe(scene).value, off(e, at)) - e.read);
        },
        jacobian: (at) => {
          const scene = sceneOf(model, at);
          return rowsOf(model, equations, scene).map((row, i) => {
            const e = equations[i]!;
            const wide = [...row, ...free.map(() => 0)];
            const w = off(e, at);
            if (w === 0) return wide;
            const value = e.observe(scene).value;
            const length = Math.hypot(value, w);
            for (let j = 0; j < n; j++) wide[j]! *= value / length;
            e.points.forEach((p, k) => {
              const s = slot.get(p);
              if (s !== undefined) wide[s]! += (k === 0 ? w : -w) / length;
            });
            return wide;
          });
        },
        sd: equations.map((e) => e.sd*Number(process.env.SOFT ?? 1)),
        prior: [...new Array<undefined>(n).fill(undefined), ...free.map(() => ({ at: 0, sd: share * model.extent }))],
      },
      x,
      { iterations: 200, cosine: Number(process.env.COS??0.1) },
    );
    if (process.env.DBG) console.log(share, found.converged, found.iterations, found.chi2.toFixed(0));
    if (!found.converged) return undefined;
    x = found.x;
  }
  return sceneOf(model, x.slice(0, n));
}
