// biome-ignore-all lint/style/noNonNullAssertion: modelOf numbers points and unknowns: slots, known and network.at have an entry a point, the covariance a line an unknown, and an equation speaks of those points alone
import type { Vec } from "../space/index.ts";
import { attitudeOf } from "./attitude.ts";
import { ALIKE, candidates, judgeOf, withPlace } from "./candidates.ts";
import type { Equation, Network } from "./equation.ts";
import type { Model } from "./model.ts";

const NOWHERE: Vec = [Number.NaN, Number.NaN, Number.NaN];

/**
 * Places to start from, found from the readings alone: point after point, that first which most readings tie to what is
 * placed already, each where the readings meet. `venture`: by chance also a place that suits nearly as well (the
 * mirror image, say), so that another try finds another way.
 */
export function startNetwork(
  model: Model,
  equations: readonly Equation[],
  random: () => number,
  venture = false,
): Network {
  let network = nowhere(model, equations);
  for (const { p, own } of placingOrder(model, equations)) {
    const found = candidates(p, own, network, model.extent, random);
    network = withPlace(network, p, pick(found, random, venture) ?? anywhere(network, model.extent, random));
  }
  return network;
}

/** So many ways to place the points are followed side by side. */
const SIDE_BY_SIDE = 32;

/**
 * All likely places to start from, the likeliest first: as `startNetwork`, but where a point can stand in several places
 * each is followed, and those that go badly with later readings are dropped on the way. So a point that three tapes
 * place on either side of a plane is tried on both, with all that hangs on it. `outdone`: cost over the best at which a
 * way is dropped; a reading that is far out costs about 10.
 */
export function startNetworks(
  model: Model,
  equations: readonly Equation[],
  random: () => number,
  outdone: number,
): readonly Network[] {
  let ways: readonly { readonly network: Network; readonly cost: number }[] = [
    { network: nowhere(model, equations), cost: 0 },
  ];
  for (const { p, own } of placingOrder(model, equations)) {
    const on = ways.flatMap(({ network, cost }) => {
      const found = candidates(p, own, network, model.extent, random);
      if (found.length === 0)
        return [{ network: withPlace(network, p, anywhere(network, model.extent, random)), cost }];
      return found.map((c) => ({ network: withPlace(network, p, c.at), cost: cost + c.cost }));
    });
    const least = Math.min(...on.map((w) => w.cost));
    ways = on
      .filter((w) => w.cost <= least + outdone)
      .sort((a, b) => a.cost - b.cost)
      .slice(0, SIDE_BY_SIDE);
  }
  return ways.map((w) => w.network);
}

const nowhere = (model: Model, equations: readonly Equation[]): Network => ({
  at: model.known.map((point) => point.at ?? NOWHERE),
  attitude: startAttitude(model, equations),
});

/** The points to be placed, that first which most readings tie to what is placed already, each with those readings. */
function placingOrder(model: Model, equations: readonly Equation[]) {
  const touching = touchingOf(model, equations);
  const placed = model.known.map((point) => point.at !== undefined);
  const usable = (p: number): readonly Equation[] =>
    touching[p]!.filter((e) => e.points.every((q) => q === p || placed[q]));
  const order: { readonly p: number; readonly own: readonly Equation[] }[] = [];
  for (;;) {
    let best: (typeof order)[number] | undefined;
    for (let p = 0; p < placed.length; p++) {
      if (placed[p]) continue;
      const own = usable(p);
      if (!best || own.length > best.own.length) best = { p, own };
    }
    if (!best) return order;
    order.push(best);
    placed[best.p] = true;
  }
}

/** Each point placed anew from all that is read of it, the others where they are; undefined where nothing moves. */
export function replaced(
  model: Model,
  equations: readonly Equation[],
  from: Network,
  random: () => number,
): Network | undefined {
  const touching = touchingOf(model, equations);
  let network = from;
  let moved = false;
  model.known.forEach((point, p) => {
    if (point.at || touching[p]!.length < 3) return;
    const [best] = candidates(p, touching[p]!, network, model.extent, random);
    if (best && best.cost < judgeOf(p, touching[p]!, network).cost(network.at[p]!) - ALIKE) {
      network = withPlace(network, p, best.at);
      moved = true;
    }
  });
  return moved ? network : undefined;
}

/**
 * A point that is out of step moved to another place that suits some of its readings, and its neighbours placed anew
 * around it, wherever that makes all of them fit better: what `replaced`, one point at a time, cannot do. Undefined
 * where nothing moves.
 */
export function repaired(
  model: Model,
  equations: readonly Equation[],
  from: Network,
  random: () => number,
): Network | undefined {
  const touching = touchingOf(model, equations);
  const isOut = (e: Equation): boolean =>
    Math.abs(e.observe(network).value - e.read) > 3 * e.sd + 1e-3 * Math.abs(e.isAngle ? 0 : e.read);
  let network = from;
  let moved = false;
  model.known.forEach((point, p) => {
    if (point.at || !touching[p]!.some(isOut)) return;
    const around = [...new Set(touching[p]!.flatMap((e) => e.points))].filter(
      (q) => q !== p && !model.known[q]!.at,
    );
    const affected = [...new Set([p, ...around].flatMap((q) => touching[q]!))];
    const cost = judgeOf(p, affected, network).cost(network.at[p]!);
    for (const other of candidates(p, touching[p]!, network, model.extent, random)) {
      let next = withPlace(network, p, other.at);
      for (const q of around) {
        const [best] = candidates(q, touching[q]!, next, model.extent, random);
        if (best && best.cost < judgeOf(q, touching[q]!, next).cost(next.at[q]!))
          next = withPlace(next, q, best.at);
      }
      if (judgeOf(p, affected, next).cost(next.at[p]!) < cost - ALIKE) {
        [network, moved] = [next, true];
        return;
      }
    }
  });
  return moved ? network : undefined;
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

function anywhere(network: Network, extent: number, random: () => number): Vec {
  const places = network.at.filter((at) => at.every(Number.isFinite));
  const middle = (i: 0 | 1 | 2): number =>
    places.reduce((sum, at) => sum + at[i] / places.length, 0) + (random() - 0.5) * extent;
  return [middle(0), middle(1), middle(2)];
}

function startAttitude(model: Model, equations: readonly Equation[]) {
  const mean = (way: 0 | 1): number => {
    if (model.lean[way] === undefined) return 0;
    const wanted = way === 0 ? "along" : "across";
    const read = equations.flatMap((e) => {
      const reading = e.reading === undefined ? undefined : model.readings[e.reading];
      return reading?.kind === "lean" && reading.way === wanted ? [e.read] : [];
    });
    return read.length > 0 ? read.reduce((a, b) => a + b, 0) / read.length : 0;
  };
  return attitudeOf(mean(0), mean(1));
}
