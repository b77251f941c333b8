import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { seeded } from "../numeric/index.ts";
import { add, along, cross, dist, dot, len, ORIGIN, scale, sub, UP, unit, type Vec } from "../space/index.ts";
import { type Fit, fitFrom } from "./adjust.ts";
import type { Equation, Scene } from "./equation.ts";
import { candidates, withPlace } from "./place.ts";
import { startScene, touchingOf } from "./start.ts";
import type { Advice, Mirrored } from "./types.ts";

/** χ² that another solution may be worse by and still be as good: 95 %, one degree of freedom. */
export const AS_GOOD = 3.84;

/** χ² that a start may be worse by and still be tried: 17 sd in one reading, or in several together. */
const HOPELESS = 300;

/** Other solutions that suit the readings as well, each different from the first and from one another. */
export function othersOf(fit: Fit): readonly Fit[] {
  const found: Fit[] = [];
  const consider = (start: Scene): void => {
    // Mirrored in a plane of marks the readings are off by no more than the marks are off the plane.
    if (misfit(fit.equations, start) > misfit(fit.equations, fit.scene) + HOPELESS) return;
    const other = fitFrom(fit.model, fit.equations, start);
    if (!other || other.chi2 > fit.chi2 + AS_GOOD) return;
    if (moved(fit, other).length === 0 || found.some((f) => moved(f, other).length === 0)) return;
    found.push(other);
  };
  for (const start of [...singles(fit), ...wholes(fit)]) consider(start);
  if (found.length === 0) for (const start of byChance(fit)) consider(start);
  return found;
}

const misfit = (equations: readonly Equation[], scene: Scene): number =>
  equations.reduce((sum, e) => sum + ((e.observe(scene).value - e.read) / e.sd) ** 2, 0);

/** Points that stand elsewhere in another solution, by more than the errors there and here say already. */
function moved(fit: Fit, other: Fit): readonly number[] {
  const sd = (f: Fit, p: number): number =>
    Math.hypot(...f.model.slots[p]!.map((s) => (s === undefined ? 0 : Math.sqrt(f.covariance[s]![s]!))));
  const free = (f: Fit, p: number): boolean =>
    f.model.slots[p]!.some((s) => s !== undefined && f.loose.has(s));
  return fit.model.ids.flatMap((_, p) => {
    if (free(fit, p) || free(other, p)) return [];
    const least = 1e-6 * fit.model.extent + 2 * Math.max(sd(fit, p), sd(other, p));
    return dist(fit.scene.at[p]!, other.scene.at[p]!) > least ? [p] : [];
  });
}

/** One point at a time at the other places where its readings meet. */
function singles({ model, equations, scene }: Fit): readonly Scene[] {
  const random = seeded(7);
  const touching = touchingOf(model, equations);
  return model.known.flatMap((point, p) => {
    if (point.at || touching[p]!.length === 0) return [];
    const all = candidates(p, touching[p]!, scene, model.extent, random);
    const least = Math.min(...all.map((c) => c.cost));
    return all
      .filter((c) => c.cost < least + AS_GOOD && dist(c.at, scene.at[p]!) > 1e-3 * model.extent)
      .map((c) => withPlace(scene, p, c.at));
  });
}

/** Points that hang together, mirrored in the plane of the known places that they hang from. */
function wholes(fit: Fit): readonly Scene[] {
  const { model, equations, scene } = fit;
  return hanging(fit).flatMap((group) => {
    const own = equations.filter((e) => e.points.some((p) => group.has(p)));
    const held = own.flatMap((e) => e.points.filter((p) => !group.has(p)).map((p) => scene.at[p]!));
    if (held.length === 0) return [];
    const middle = scale(held.reduce<Vec>(add, ORIGIN), 1 / held.length);
    return planesThrough(held, middle, model.extent).map((normal): Scene => {
      const at = scene.at.map((place, p) =>
        group.has(p) ? along(place, normal, -2 * dot(sub(place, middle), normal)) : place,
      );
      return { ...scene, at };
    });
  });
}

/** Groups of points not known beforehand that readings tie to each other. */
function hanging({ model, equations }: Fit): readonly ReadonlySet<number>[] {
  const groups: Set<number>[] = model.known.flatMap((point, p) => (point.at ? [] : [new Set([p])]));
  const unknown = (e: Equation): readonly number[] => e.points.filter((p) => !model.known[p]!.at);
  for (const e of equations) {
    const tied = groups.filter((g) => unknown(e).some((p) => g.has(p)));
    const [first, ...rest] = tied;
    for (const g of rest) {
      for (const p of g) first!.add(p);
      groups.splice(groups.indexOf(g), 1);
    }
  }
  return groups.filter((g) => g.size > 1);
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

/** In a small survey of several points also whole starts by chance: they find what no one plane mirrors. */
function byChance({ model, equations }: Fit): readonly Scene[] {
  const alone = model.known.filter((point) => !point.at).length < 2;
  if (alone || model.unknowns > 30) return [];
  const random = seeded(11);
  return Array.from({ length: 8 }, () => startScene(model, equations, random, true));
}

/** The one of several solutions that stands highest; of equal ones the most forward, then the farthest to the left. */
export function highest(fits: readonly [Fit, ...Fit[]]): Fit {
  const sum = (f: Fit, i: 0 | 1 | 2): number => f.scene.at.reduce((s, at) => s + at[i], 0);
  const level = 1e-3 * fits[0].model.extent;
  return fits.reduce((best, f) => {
    for (const i of [2, 0, 1] as const) {
      const more = sum(f, i) - sum(best, i);
      if (Math.abs(more) > level) return more > 0 ? f : best;
    }
    return best;
  });
}

/** What another solution means: which points stand elsewhere, and a reading that tells the two apart. */
export function mirroredOf(fit: Fit, other: Fit): Mirrored {
  const points = moved(fit, other).map((p) => ({
    id: fit.model.ids[p]!,
    at: fit.scene.at[p]!,
    other: other.scene.at[p]!,
  }));
  const far = points.reduce((a, b) => (dist(b.at, b.other) > dist(a.at, a.other) ? b : a));
  const gap = sub(far.at, far.other).map(Math.abs) as unknown as Vec;
  const most = Math.max(...gap);
  const kind = gap[2] >= most / 2 ? "height" : gap[1] >= gap[0] ? "out" : "fore";
  const settle: Advice = { kind, point: far.id };
  return { points, settle };
}
