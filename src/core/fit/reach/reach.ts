// biome-ignore-all lint/style/noNonNullAssertion: k runs below the number of bars, and closes has an entry a place.
import type { End } from "../../job/types.ts";
import { type FitBar, type Obstacle, standing } from "../scene/index.ts";
import { hits, isWelded, meets, type Rods, ringOf, type Torch, type Welding } from "./ring.ts";

/** How much of one joint's ring a torch gets to, in a given order of fitting. */
export interface Reach {
  readonly bar: string;
  readonly end: End;
  /** Shares of the ring, 0 to 1: when its own bar is in, when all are in, and then with the roof off. */
  readonly first: number;
  readonly last: number;
  readonly roofOff: number;
  /** Where the body hides some of it: how far the cage must stand lower in the body (mm) to get at most, and the share. */
  readonly lowered?: { readonly by: number; readonly share: number };
  /** Bars that close part of it later: it must be welded there before they go in. */
  readonly before: readonly { readonly bar: string; readonly share: number }[];
}

/** How far a cage not yet on its plates may be let down into the body (mm), as tried. */
const LOWER = [25, 50, 75, 100, 150];

/**
 * Weld reach of every joint as the cage stands after each step of an order.
 *
 * A place of a ring (`ringOf`: how a torch is held to it) counts as reached when one of these ways clears everything by
 * more than 0: tacked bars, plates, panels, floor, the bar itself and its host. In a groove that is closed to less
 * than about 50° a 22 mm torch does not get in, whatever else stands: that is geometry, not order.
 * Lowered: the whole cage, all bars in, let down while its feet are not on their plates yet; plates and floor are out
 * of the way then (holes under the feet: common practice, no source).
 * Units: mm; shares of 36 places.
 */
export function weldReach(fitting: Welding, order: readonly string[]): readonly Reach[] {
  const byId = new Map(fitting.bars.map((b) => [b.bar.id, b]));
  const steps = order.flatMap((id) => byId.get(id) ?? []);
  const bars = steps.map((b) => standing(b.bar));
  const off = fitting.parts(true).filter(isWelded);
  const stays = new Set(off);
  const roof = fitting.parts(false).filter((o) => isWelded(o) && !stays.has(o));
  return steps.flatMap((own, at) =>
    (["A", "B"] as const).flatMap(
      (end) => ringReach(own, end, at, order, bars, off, roof, fitting.torch) ?? [],
    ),
  );
}

function ringReach(
  own: FitBar,
  end: End,
  at: number,
  order: readonly string[],
  bars: readonly Obstacle[],
  parts: readonly Obstacle[],
  roof: readonly Obstacle[],
  torch: Torch,
): Reach | undefined {
  const places = ringOf(own, end, torch);
  if (places.length === 0) return undefined;
  const last = bars.length;
  const closes = places.map((rods) => {
    let open = -1;
    let openOff = -1;
    for (const rod of rods) {
      if (hits(rod, torch, parts)) continue;
      const by = firstHit(rod, torch, bars, at);
      openOff = Math.max(openOff, by);
      if (by > open && !hits(rod, torch, roof)) open = by;
      if (open === last) break;
    }
    return { open, openOff };
  });
  const share = (n: number): number => n / places.length;
  const whole = closes.filter((c) => c.open === last).length;
  const shut = places.filter((_, i) => closes[i]!.open < last);
  const lowered = loweredBy(shut, bars, [...parts, ...roof].filter(isBody), torch);
  const before = order.slice(at + 1).flatMap((bar, i) => {
    const n = closes.filter((c) => c.open === at + 1 + i).length;
    return n > 0 ? [{ bar, share: share(n) }] : [];
  });
  return {
    bar: own.bar.id,
    end,
    first: share(closes.filter((c) => c.open > at).length),
    last: share(whole),
    roofOff: share(closes.filter((c) => c.openOff === last).length),
    ...(lowered ? { lowered: { by: lowered.by, share: share(whole + lowered.more) } } : {}),
    before,
  };
}

const isBody = (o: Obstacle): boolean => o.kind === "panel" || o.kind === "line";

/** How many of the places that are shut a lower cage opens, and the least drop that opens the most of them. */
function loweredBy(
  shut: readonly (readonly Rods[])[],
  bars: readonly Obstacle[],
  body: readonly Obstacle[],
  torch: Torch,
): { readonly by: number; readonly more: number } | undefined {
  const past = shut.map((rods) => rods.filter((rod) => !hits(rod, torch, bars)));
  let best: { readonly by: number; readonly more: number } | undefined;
  if (body.length === 0) return undefined;
  for (const by of LOWER) {
    const more = past.filter((rods) => rods.some((rod) => !hits(dropped(rod, by), torch, body))).length;
    if (more > (best?.more ?? 0)) best = { by, more };
  }
  return best;
}

const dropped = ({ wire, torch }: Rods, by: number): Rods => {
  const down = (rods: Float64Array): Float64Array => rods.map((v, i) => (i % 3 === 2 ? v - by : v));
  return { wire: down(wire), torch: down(torch) };
};

/** The step at which a bar closes the way of a rod: one of those already in counts as −1; none is the list's length. */
function firstHit(rod: Rods, torch: Torch, bars: readonly Obstacle[], at: number): number {
  for (let k = 0; k < bars.length; k++) {
    if (meets(bars[k]!, rod, torch)) return k <= at ? -1 : k;
  }
  return bars.length;
}
