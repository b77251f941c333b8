import { placesOf } from "../bar/index.ts";
import type { CopeResult, EndAxes } from "../cope/index.ts";
import { endAxes, nearest } from "../cope/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { along, cross, FORWARD, rejection, sub, UP, unit, type Vec } from "../space/index.ts";
import { sizeOf } from "../tube/index.ts";
import type { MadeBar, Rim } from "./types.ts";

/** A bar as it is wanted now, with its ends as they are to be cut. */
export interface WantedBar {
  readonly bar: ResolvedBar;
  readonly copes: Readonly<Record<End, CopeResult>>;
}

/** What an end's notch is to be: left as it is, or cut again. */
export type Ends = Readonly<Record<End, "keep" | "cut">>;

export const ENDS = ["A", "B"] as const;

/** A place of a rim, where it was made, and how it counts. */
export interface Spot {
  readonly at: Vec;
  readonly end: End;
  readonly isOuter: boolean;
}

/** What a place of the bar would be off by (mm): more than 0, open or short; less than 0, into the metal or long. */
export type Off = (p: Vec) => number;

export const axesOf = ({ bar, copes }: WantedBar, end: End): EndAxes =>
  copes[end].joint?.axes ?? endAxes(bar.centreline, end);

export function offAt(wanted: WantedBar, end: End, how: "keep" | "cut"): Off {
  const axes = axesOf(wanted, end);
  const { joint } = wanted.copes[end];
  const { landing, zero, quarter, out } = axes;
  // Written out, without a vector for each step: the search asks it of every place, at every pose.
  const by = (p: Vec, way: Vec): number =>
    (p[0] - landing[0]) * way[0] + (p[1] - landing[1]) * way[1] + (p[2] - landing[2]) * way[2];
  if (!joint) return (p) => -by(p, out);
  if (how === "keep") return (p) => nearest(joint.solids, by(p, zero), by(p, quarter), by(p, out));
  return (p) => {
    const [x, y] = [by(p, zero), by(p, quarter)];
    const rho = Math.hypot(x, y);
    // Where nothing is met there is nothing to be cut to: any metal will do.
    const back = joint.back(rho, x / rho, y / rho);
    return Number.isNaN(back) ? Number.NEGATIVE_INFINITY : -back - by(p, out);
  };
}

/** Places of one end's edge, one a degree, those outside before those at the bore; a sawn end's is flat. */
export function spotsOf(made: MadeBar, end: End): readonly Spot[] {
  const axes = made.frames[end];
  const inCar = ([x, y, z]: Vec): Vec =>
    along(along(along(axes.landing, axes.zero, x), axes.quarter, y), axes.out, z);
  const { outer, bore } = made.rims[end] ?? sawnEdge(made, end);
  const walls = [
    [outer, true],
    [bore, false],
  ] as const;
  return walls.flatMap(([places, isOuter]) =>
    places.flatMap((p) => (p ? [{ at: inCar(p), end, isOuter }] : [])),
  );
}

function sawnEdge({ tube, over }: MadeBar, end: End): Rim {
  const ring = (rho: number): Vec[] =>
    Array.from({ length: 360 }, (_, i) => {
      const phi = (i * Math.PI) / 180;
      return [rho * Math.cos(phi), rho * Math.sin(phi), over[end]];
    });
  const { od, wall } = sizeOf(tube);
  return { outer: ring(od / 2), bore: ring(od / 2 - wall) };
}

/** A place of the bar that must stay within so much of another, one way (mm). */
export interface Stay {
  readonly at: Vec;
  readonly to: Vec;
  readonly way: Vec;
  readonly within: number;
}

export function asides(made: MadeBar, bar: ResolvedBar, aside: number): readonly Stay[] {
  const [was, now] = [placesOf(made.line), placesOf(bar.centreline)];
  return now.flatMap((to, i) => {
    const at = was[i];
    if (!at || was.length !== now.length) return [];
    const isEnd = i === 0 || i === now.length - 1;
    const out = i === 0 ? sub(now[0] ?? to, now[1] ?? to) : sub(now[i] ?? to, now[i - 1] ?? to);
    const ways = isEnd ? squareTo(unit(out)) : AXES;
    return ways.map((way) => ({ at, to, way, within: aside }));
  });
}

const AXES: readonly Vec[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

function squareTo(dir: Vec): readonly Vec[] {
  const one = unit(rejection(Math.abs(dir[2]) < 0.9 ? UP : FORWARD, dir));
  return [one, cross(dir, one)];
}
