import type { Vec } from "../space/index.ts";
import type { Equation, Scene } from "./equation.ts";
import type { Model } from "./model.ts";
import { ALIKE, candidates, judgeOf, withPlace } from "./place.ts";
import { standing } from "./stand.ts";

const NOWHERE: Vec = [Number.NaN, Number.NaN, Number.NaN];

/**
 * Places to start from, found from the readings alone: point after point, that first which most readings tie to what is
 * placed already, each where the readings meet. `venture`: by chance also a place that suits nearly as well (the
 * mirror image, say), so that another try finds another way.
 */
export function startScene(
  model: Model,
  equations: readonly Equation[],
  random: () => number,
  venture = false,
): Scene {
  const touching = touchingOf(model, equations);
  let scene: Scene = {
    at: model.known.map((point) => point.at ?? NOWHERE),
    stand: startStand(model, equations),
  };
  const placed = model.known.map((point) => point.at !== undefined);
  const usable = (p: number): readonly Equation[] =>
    touching[p]!.filter((e) => e.points.every((q) => q === p || placed[q]));
  for (;;) {
    let best: { p: number; own: readonly Equation[]; ties: number } | undefined;
    for (let p = 0; p < placed.length; p++) {
      if (placed[p]) continue;
      const own = usable(p);
      if (!best || own.length > best.ties) best = { p, own, ties: own.length };
    }
    if (!best) return scene;
    const found = candidates(best.p, best.own, scene, model.extent, random);
    scene = withPlace(scene, best.p, pick(found, random, venture) ?? anywhere(scene, model.extent, random));
    placed[best.p] = true;
  }
}

/** Each point placed anew from all that is read of it, the others where they are; undefined where nothing moves. */
export function replaced(
  model: Model,
  equations: readonly Equation[],
  from: Scene,
  random: () => number,
): Scene | undefined {
  const touching = touchingOf(model, equations);
  let scene = from;
  let moved = false;
  model.known.forEach((point, p) => {
    if (point.at || touching[p]!.length < 3) return;
    const [best] = candidates(p, touching[p]!, scene, model.extent, random);
    if (best && best.cost < judgeOf(p, touching[p]!, scene).cost(scene.at[p]!) - ALIKE) {
      scene = withPlace(scene, p, best.at);
      moved = true;
    }
  });
  return moved ? scene : undefined;
}

/**
 * A point that is out of step moved to another place that suits some of its readings, and its neighbours placed anew
 * around it, wherever that makes all of them fit better: what `replaced`, one point at a time, cannot do. Undefined
 * where nothing moves.
 */
export function repaired(
  model: Model,
  equations: readonly Equation[],
  from: Scene,
  random: () => number,
): Scene | undefined {
  const touching = touchingOf(model, equations);
  const isOut = (e: Equation): boolean =>
    Math.abs(e.observe(scene).value - e.read) > 3 * e.sd + 1e-3 * Math.abs(e.isAngle ? 0 : e.read);
  let scene = from;
  let moved = false;
  model.known.forEach((point, p) => {
    if (point.at || !touching[p]!.some(isOut)) return;
    const around = [...new Set(touching[p]!.flatMap((e) => e.points))].filter(
      (q) => q !== p && !model.known[q]!.at,
    );
    const affected = [...new Set([p, ...around].flatMap((q) => touching[q]!))];
    const cost = judgeOf(p, affected, scene).cost(scene.at[p]!);
    for (const other of candidates(p, touching[p]!, scene, model.extent, random)) {
      let next = withPlace(scene, p, other.at);
      for (const q of around) {
        const [best] = candidates(q, touching[q]!, next, model.extent, random);
        if (best && best.cost < judgeOf(q, touching[q]!, next).cost(next.at[q]!))
          next = withPlace(next, q, best.at);
      }
      if (judgeOf(p, affected, next).cost(next.at[p]!) < cost - ALIKE) {
        [scene, moved] = [next, true];
        return;
      }
    }
  });
  return moved ? scene : undefined;
}

/** Each point's equations. */
export const touchingOf = (
  model: Model,
  equations: readonly Equation[],
): readonly (readonly Equation[])[] => {
  const touching: Equation[][] = model.ids.map(() => []);
  for (const e of equations) for (const p of new Set(e.points)) touching[p]!.push(e);
  return touching;
};

function pick(
  found: readonly { readonly at: Vec; readonly cost: number }[],
  random: () => number,
  venture: boolean,
): Vec | undefined {
  if (!venture) return found[0]?.at;
  const near = found.filter((c) => c.cost < found[0]!.cost + 6);
  return near[Math.floor(random() * near.length)]?.at;
}

function anywhere(scene: Scene, extent: number, random: () => number): Vec {
  const places = scene.at.filter((at) => at.every(Number.isFinite));
  const middle = (i: 0 | 1 | 2): number =>
    places.reduce((sum, at) => sum + at[i] / places.length, 0) + (random() - 0.5) * extent;
  return [middle(0), middle(1), middle(2)];
}

function startStand(model: Model, equations: readonly Equation[]) {
  const mean = (way: 0 | 1): number => {
    if (model.lean[way] === undefined) return 0;
    const wanted = way === 0 ? "along" : "across";
    const read = equations.flatMap((e) => {
      const reading = e.reading === undefined ? undefined : model.readings[e.reading];
      return reading?.kind === "lean" && reading.way === wanted ? [e.read] : [];
    });
    return read.length > 0 ? read.reduce((a, b) => a + b, 0) / read.length : 0;
  };
  return standing(mean(0), mean(1));
}
