// biome-ignore-all lint/style/noNonNullAssertion: modelOf numbers points and unknowns: slots, known and network.at have an entry a point, the covariance a line an unknown, and an equation speaks of those points alone
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { chiSquareLimit } from "../estimate/index.ts";
import { seeded } from "../numeric/index.ts";
import {
  add,
  along,
  cross,
  dist,
  dot,
  len,
  mapVec,
  ORIGIN,
  scale,
  sub,
  UP,
  unit,
  type Vec,
} from "../space/index.ts";
import { type Fit, LARGE, settleFrom } from "./adjust.ts";
import { candidates, withPlace } from "./candidates.ts";
import type { Equation, Network } from "./equation.ts";
import { networkOf, residualsOf } from "./model.ts";
import { startNetworks, touchingOf } from "./start.ts";
import type { Advice, Mirrored } from "./types.ts";

/** χ² that another solution may be worse by and still be as good: 95 %, one degree of freedom. */
export const AS_GOOD = chiSquareLimit(0.95, 1);

/** χ² that a start may be worse by and still be tried: 10 sd in one reading, or in several together. */
const HOPELESS = 100;

/** Cost over the likeliest up to which another way to place the points may yet turn out as good: early slips of a few mm cost so much. */
const DOUBTFUL = 8;

/** Places that suit the readings as well as those of the fit, and χ² there. */
export interface Other {
  readonly network: Network;
  readonly chi2: number;
}

/** Other solutions that suit the readings as well or better, each different from the first and from one another. */
export function othersOf(fit: Fit): readonly Other[] {
  const { model, equations } = fit;
  const found: Other[] = [];
  const hopeful = (start: Network): boolean =>
    // Mirrored in a plane of marks the readings are off by no more than the marks are off the plane.
    misfit(equations, start) <= misfit(equations, fit.network) + HOPELESS;
  const consider = (start: Network): void => {
    const solved = settleFrom(model, equations, start);
    if (!solved || solved.chi2 > fit.chi2 + AS_GOOD) return;
    const network = networkOf(model, solved.x);
    if ([fit, ...found].every((f) => moved(fit, f.network, network).length > 0))
      found.push({ network, chi2: solved.chi2 });
  };
  for (const start of [...singles(fit), ...wholes(fit)]) if (hopeful(start)) consider(start);
  for (const start of whole(fit)) consider(start);
  return found;
}

const misfit = (equations: readonly Equation[], network: Network): number =>
  residualsOf(equations, network).reduce((sum, r) => sum + r * r, 0);

/** Determined points that stand elsewhere in another network, by more than their errors say already. */
function moved(fit: Fit, one: Network, other: Network): readonly number[] {
  return fit.model.slots.flatMap((slots, p) => {
    if (slots.some((s) => s !== undefined && fit.loose.has(s))) return [];
    return dist(one.at[p]!, other.at[p]!) > 1e-6 * fit.model.extent + 2 * errorOf(fit, p) ? [p] : [];
  });
}

/** √(sx² + sy² + sz²) of a point (mm). */
const errorOf = ({ model, covariance }: Fit, p: number): number =>
  Math.hypot(...model.slots[p]!.map((s) => (s === undefined ? 0 : Math.sqrt(covariance[s]![s]!))));

/** One point at a time at the other places where its readings meet. */
function singles(fit: Fit): readonly Network[] {
  const { model, equations, network } = fit;
  const random = seeded(7);
  const touching = touchingOf(model, equations);
  return model.known.flatMap((point, p) => {
    if (point.at || touching[p]!.length === 0) return [];
    const all = candidates(p, touching[p]!, network, model.extent, random);
    const least = Math.min(...all.map((c) => c.cost));
    const elsewhere = 1e-3 * model.extent + 2 * errorOf(fit, p);
    return all
      .filter((c) => c.cost < least + AS_GOOD && dist(c.at, network.at[p]!) > elsewhere)
      .map((c) => withPlace(network, p, c.at));
  });
}

/** Points that hang together, mirrored in the plane of the known places that they hang from. */
function wholes(fit: Fit): readonly Network[] {
  const { model, equations, network } = fit;
  return hanging(fit).flatMap((group) => {
    const own = equations.filter((e) => e.points.some((p) => group.has(p)));
    const held = own.flatMap((e) => e.points.filter((p) => !group.has(p)).map((p) => network.at[p]!));
    if (held.length === 0) return [];
    const middle = scale(held.reduce<Vec>(add, ORIGIN), 1 / held.length);
    return planesThrough(held, middle, model.extent).map((normal): Network => {
      const at = network.at.map((place, p) =>
        group.has(p) ? along(place, normal, -2 * dot(sub(place, middle), normal)) : place,
      );
      return { ...network, at };
    });
  });
}

/** Groups of points not known beforehand that readings tie to each other. */
function hanging({ model, equations }: Fit): readonly ReadonlySet<number>[] {
  const group = new Map<number, Set<number>>();
  model.known.forEach((point, p) => {
    if (!point.at) group.set(p, new Set([p]));
  });
  for (const e of equations) {
    const [first, ...rest] = e.points.flatMap((p) => group.get(p) ?? []);
    for (const other of rest) {
      if (other === first) continue;
      for (const p of other) {
        first!.add(p);
        group.set(p, first!);
      }
    }
  }
  return [...new Set(group.values())].filter((g) => g.size > 1);
}

/** Normals of the planes in which places may be mirrored: their own, and where they lie on a line the upright one. */
function planesThrough(places: readonly Vec[], middle: Vec, extent: number): readonly Vec[] {
  const spread = Matrix.zeros(3, 3);
  for (const place of places) {
    const v = sub(place, middle);
    for (const i of [0, 1, 2] as const)
      for (const j of [0, 1, 2] as const) spread.set(i, j, spread.get(i, j) + v[i] * v[j]);
  }
  const { eigenvectorMatrix, realEigenvalues } = new EigenvalueDecomposition(spread, {
    assumeSymmetric: true,
  });
  const order = [0, 1, 2].sort((a, b) => realEigenvalues[a]! - realEigenvalues[b]!);
  const axis = (k: number): Vec => eigenvectorMatrix.getColumn(order[k]!) as unknown as Vec;
  const onLine = Math.sqrt(Math.max(0, realEigenvalues[order[1]!]!)) < 1e-6 * extent;
  const upright = cross(axis(2), UP);
  return onLine && len(upright) > 1e-6 ? [unit(upright)] : [axis(0)];
}

/** In a small survey of several points also every likely way to place them all: they find what no one plane mirrors. */
function whole({ model, equations }: Fit): readonly Network[] {
  const alone = model.known.filter((point) => !point.at).length < 2;
  return alone || model.unknowns > LARGE ? [] : startNetworks(model, equations, seeded(11), DOUBTFUL);
}

/** The one of several solutions that stands highest; of equal ones the most forward, then the farthest to the left. */
export function highest<T extends Other>(others: readonly [T, ...T[]], extent: number): T {
  const sum = (o: T, i: 0 | 1 | 2): number => o.network.at.reduce((s, at) => s + at[i], 0);
  return others.reduce((best, o) => {
    for (const i of [2, 0, 1] as const) {
      const more = sum(o, i) - sum(best, i);
      if (Math.abs(more) > 1e-3 * extent) return more > 0 ? o : best;
    }
    return best;
  });
}

/** What another solution means: which points stand elsewhere, and a reading that tells the two apart. */
export function mirroredOf(fit: Fit, { network }: Other): Mirrored {
  const points = moved(fit, fit.network, network).map((p) => ({
    id: fit.model.ids[p]!,
    at: fit.network.at[p]!,
    other: network.at[p]!,
  }));
  const far = points.reduce((a, b) => (dist(b.at, b.other) > dist(a.at, a.other) ? b : a));
  const gap = mapVec(sub(far.at, far.other), Math.abs);
  const kind = gap[2] >= Math.max(...gap) / 2 ? "height" : gap[1] >= gap[0] ? "out" : "fore";
  const settle: Advice = { kind, point: far.id };
  return { points, settle };
}
