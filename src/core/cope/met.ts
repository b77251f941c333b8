import { closestTo, placeAt } from "../bar/index.ts";
import type { ResolvedBar, Seat } from "../layout/types.ts";
import { SAME_PLACE } from "../numeric/index.ts";
import { dist, dot, len, sub, type Vec } from "../space/index.ts";
import { endedHost } from "./also.ts";
import { type EndAxes, inAxes } from "./axes.ts";
import { type Host, hostPieces, slabOf, uncut } from "./host.ts";

/** Something that an end may be coped to, and how far a joint with it can run (mm). */
export interface Met {
  readonly host: Host;
  /** Of a bar: what the notcher needs to know; its direction at its centreline's point nearest the landing. */
  readonly bar?: { readonly id: string; readonly radius: number; readonly dir: Vec; readonly at: Vec };
  /** How far beyond the landing a wall line at radius ρ may still meet it. */
  readonly reach: (rho: number) => number;
  /** A joint longer than this is a bar that runs along its host. */
  readonly longest: number;
}

/** What the end lands on. */
export interface On extends Met {
  /** The back past which the axis of a bar that ran on straight is clear of it, straight as it is here, by ρ. */
  readonly clearPast: (rho: number) => number;
  /** Where one of the host's ends may be within reach: the host without what it runs on past them. */
  readonly ended?: Host;
}

/** sin γ below this counts as parallel: nothing ends the march but the tube. */
const PARALLEL = 1e-3;

/** A joint is no longer than so many times what it reaches on one side, and the tube's diameter. */
const LONGEST = 3;

/** Room left beside a clearance that is taken for granted (mm). */
const ROOM = 0.01;

/** A plate: it can be met down to twice the tube's diameter over the cosine of its tilt. */
export function metPlate(plate: Extract<Seat, { kind: "plate" }>, od: number, axes: EndAxes): On {
  const slab = slabOf(plate, od, axes);
  const cos = Math.max(PARALLEL, -slab.normal[2]);
  const reach = (2 * od) / cos;
  return {
    host: uncut([slab]),
    reach: () => reach,
    longest: LONGEST * reach + od,
    clearPast: (rho) => (rho + ROOM) / cos,
  };
}

/** The bar of `on`, whose end straights run on past its ends by as much as the joint reaches. */
export function metOn(host: ResolvedBar, seat: Seat, axes: EndAxes, od: number): On {
  const line = host.centreline;
  const closest = closestTo(line, axes.landing);
  const said = seat.kind === "on" ? seat.along : closest.s;
  const tied = dist(placeAt(line, said).at, axes.landing) <= closest.distance + SAME_PLACE;
  const bar = barAt(host, tied ? said : closest.s, axes);
  const { sin, reach, longest, past } = reaches(bar, od);
  const far = reach(od / 2);
  // On a straight host the rim reaches (ρ + H cos γ)/sin γ along it; a bend there may carry it a little farther.
  const rim = (od / 2 + bar.radius * Math.sqrt(Math.max(0, 1 - sin * sin))) / sin;
  const nearEnd =
    Math.min(said, line.length - said) < rim + od / 2 + (seat.kind === "on" ? len(seat.off) : 0);
  return {
    host: uncut(hostPieces(line, bar.radius, axes, { A: far, B: far })),
    bar,
    reach: (rho) => reach(rho) + Math.max(0, past),
    longest,
    clearPast: (rho) => (bar.radius + rho + ROOM) / sin - past,
    ...(nearEnd ? { ended: endedHost(host, axes) } : {}),
  };
}

/** A bar of `also`: `metal` ends where its own ends land. */
export function metAlso(host: ResolvedBar, metal: Host, axes: EndAxes, od: number): Met {
  const bar = barAt(host, closestTo(host.centreline, axes.landing).s, axes);
  const { reach, longest, past } = reaches(bar, od);
  return { host: metal, bar, reach: (rho) => reach(rho) + Math.max(0, past), longest };
}

function barAt(host: ResolvedBar, s: number, axes: EndAxes): NonNullable<Met["bar"]> {
  const on = placeAt(host.centreline, s);
  return {
    id: host.id,
    radius: host.tube.od / 2,
    dir: inAxes(axes, on.dir),
    at: inAxes(axes, sub(on.at, axes.landing)),
  };
}

/** geometry.md: the march ends (H + ρ)/sin γ past the host; `past` is how far beyond the landing its axis is passed. */
function reaches({ radius, dir, at }: NonNullable<Met["bar"]>, od: number) {
  const sin2 = dir[0] * dir[0] + dir[1] * dir[1];
  const sin = Math.max(PARALLEL, Math.sqrt(sin2));
  const past = sin2 > PARALLEL * PARALLEL ? (at[2] - dot(at, dir) * dir[2]) / sin2 : 0;
  return {
    sin,
    past,
    reach: (rho: number): number => (radius + rho) / sin,
    longest: (LONGEST * (radius + od / 2)) / sin + od,
  };
}
