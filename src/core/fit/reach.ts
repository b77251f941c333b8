import type { End } from "../job/types.ts";
import { add, cross, len, scale, sub, turn, unit, type Vec } from "../space/index.ts";
import { contactsOf } from "./contacts.ts";
import { rodsTo } from "./distance.ts";
import type { Fitting } from "./fitting.ts";
import { standing } from "./joint.ts";
import type { FitBar } from "./judged.ts";
import type { Obstacle } from "./scene.ts";

/** The part of a torch that must get to a joint (mm): greatest diameter of nozzle and neck, and its length. */
export interface Torch {
  readonly od: number;
  readonly length: number;
}

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

/** Distance from the nozzle's tip to the weld (mm): common practice, no source. */
const STICK_OUT = 15;
/** How far a cage not yet on its plates may be let down into the body (mm), as tried. */
const LOWER = [25, 50, 75, 100, 150];
/** How far a torch may lean from the middle of the groove (radians), and in how many directions it is tried. */
const LEANS = [0, 0.3, 0.6];
const ROUND = 6;

/**
 * Weld reach of every joint as the cage stands after each step of an order.
 *
 * Convention: at each place of the ring (the outside rim, every 10°) the weld lies in the groove between the host's
 * skin (outward normal h) and the bar's (outward normal b); the torch comes in along the middle of the groove, the
 * direction h + b, or leaning from it by up to 0.6 rad (35°). It is a round rod of the torch's od whose rounded tip is
 * 15 mm off the weld and which is `length` long. A place counts as reached when some of these rods clears everything
 * by more than 0: tacked bars, plates, panels, floor, the bar itself and its host. In a groove that is closed to less
 * than about 50° a 22 mm torch does not get in, whatever else stands: that is geometry, not order.
 * The driver is not in the car when it is welded. Lowered: the whole cage, all bars in, let down while its feet are not
 * on their plates yet; plates and floor are out of the way then (holes under the feet: common practice, no source).
 * Units: mm; shares of 36 places.
 */
export function weldReach(fitting: Fitting, order: readonly string[], torch: Torch): readonly Reach[] {
  const byId = new Map(fitting.bars.map((b) => [b.bar.id, b]));
  const steps = order.flatMap((id) => byId.get(id) ?? []);
  const bars = steps.map((b) => standing(b.bar));
  const welded = (o: Obstacle): boolean => o.kind !== "driver";
  const off = fitting.parts(true).filter(welded);
  const stays = new Set(off);
  const roof = fitting.parts(false).filter((o) => welded(o) && !stays.has(o));
  return steps.flatMap((own, at) =>
    (["A", "B"] as const).flatMap((end) => ringReach(own, end, at, order, bars, off, roof, torch) ?? []),
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
  const axis = own.copes[end].cope.out;
  const ring = contactsOf(own.bar, own.copes, own.hosts).filter(
    (c) => c.end === end && c.outer && c.phi % 10 === 0,
  );
  if (ring.length === 0) return undefined;
  const last = bars.length;
  const places = ring.map((c): readonly Rods[] => {
    const from = sub(c.at, own.copes[end].cope.landing);
    const skin = unit(sub(from, scale(axis, from[0] * axis[0] + from[1] * axis[1] + from[2] * axis[2])));
    return directions(c.normal, skin).map((d) => rodFrom(c.at, d, torch));
  });
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
  const share = (n: number): number => n / ring.length;
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

/** The middle of the groove and the leans from it; none where the groove is shut. */
function directions(host: Vec, skin: Vec): readonly Vec[] {
  const sum = add(host, skin);
  if (len(sum) < 1e-3) return [];
  const middle = unit(sum);
  const across = cross(host, skin);
  const along = len(across) > 1e-6 ? unit(across) : unit(sub(skin, scale(middle, 0.5)));
  return LEANS.flatMap((lean) =>
    lean === 0
      ? [middle]
      : Array.from({ length: ROUND }, (_, i) =>
          turn(turn(middle, along, lean), middle, (i * 2 * Math.PI) / ROUND),
        ),
  );
}

/** Wire from just off the weld to the tip, and the torch behind it. */
interface Rods {
  readonly wire: Float64Array;
  readonly torch: Float64Array;
}

function rodFrom(p: Vec, d: Vec, torch: Torch): Rods {
  const tip = STICK_OUT + torch.od / 2;
  const wire = Float64Array.from([...add(p, scale(d, 3)), ...add(p, scale(d, tip))]);
  return {
    wire,
    torch: Float64Array.from([...add(p, scale(d, tip)), ...add(p, scale(d, Math.max(tip, torch.length)))]),
  };
}

const meets = (o: Obstacle, rod: Rods, torch: Torch): boolean =>
  rodsTo(o, rod.torch, torch.od / 2, 1) <= 0 || rodsTo(o, rod.wire, 0, 1) <= 0;

const hits = (rod: Rods, torch: Torch, things: readonly Obstacle[]): boolean =>
  things.some((o) => meets(o, rod, torch));

/** The step at which a bar closes the way of a rod: one of those already in counts as −1; none is the list's length. */
function firstHit(rod: Rods, torch: Torch, bars: readonly Obstacle[], at: number): number {
  for (let k = 0; k < bars.length; k++) {
    if (meets(bars[k]!, rod, torch)) return k <= at ? -1 : k;
  }
  return bars.length;
}
