// biome-ignore-all lint/style/noNonNullAssertion: i runs below LINES, the length of ROUND and of every curve, or over near, one entry a host; a path has one piece at least; an end that is no plate has a host.
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { SAME_PLACE } from "../numeric/index.ts";
import { cross, dot, len, type Vec } from "../space/index.ts";
import { alsoHost, type Lookup } from "./also.ts";
import { type EndAxes, endAxes } from "./axes.ts";
import { type Host, nearest } from "./host.ts";
import { type Met, metAlso, metOn, metPlate } from "./met.ts";
import { endPath, wallAt } from "./path.ts";
import { LINES, ROUND } from "./round.ts";
import { overlap, type Stretch } from "./stretch.ts";
import { firstBack, readyToMeet } from "./walk.ts";
import { lookedFor, straightJoint, within } from "./where.ts";

/** A host at a joint, as the notcher needs to know it. */
export interface JointHost {
  readonly id: string;
  /** Outside radius (mm). */
  readonly radius: number;
  /** Direction of its centreline (A to B) at its point nearest the landing, in the end's axes. */
  readonly dir: Vec;
  /** That point, in the end's axes (mm). */
  readonly at: Vec;
  /** Whether it is straight wherever this end can reach it. */
  readonly straight: boolean;
}

/** One end of a bar and all it may meet, ready to be asked wall line by wall line. */
export interface Joint {
  readonly axes: EndAxes;
  /** The bars it is coped to, the host of `on` first; of `also` those whose joint overlaps that one's. */
  readonly hosts: readonly JointHost[];
  /** IDs of bars named in `also` whose joint does not, and whether they are met farther in. */
  readonly apart: readonly { readonly id: string; readonly fartherIn: boolean }[];
  /** What it is coped to as solids, in the same order; a plate alone. */
  readonly solids: readonly Host[];
  /** Back (mm) where lines start: between the joint and there nothing of these is met. */
  readonly from: number;
  /** Set where rings were not looked for: whether there is one stretch of them is known from the curve. */
  readonly assumed?: true;
  /** Where the bar runs along its host and has no joint with it: the backs between which it does. */
  readonly along?: Stretch;
  /** Back (mm) at which a wall line at radius ρ, φ (cos, sin) first meets a host; NaN where it misses. */
  readonly back: (rho: number, cos: number, sin: number) => number;
  /** The same all round at radius ρ, one line a degree. */
  readonly curve: (rho: number) => Float64Array;
  /** Whether what a wall line meets at that back is the plate or the host of `on`, not one of `also`. */
  readonly meetsFirst: (rho: number, cos: number, sin: number, back: number) => boolean;
  /**
   * Whether what a wall line meets at that back is nothing but what its host would be, ran it on past its end. Absent
   * where the host's ends are out of reach.
   */
  readonly beyondHost?: (rho: number, cos: number, sin: number, back: number) => boolean;
  /** Length of the straight at this end, from the landing to the nearest bend or the other end (mm). */
  readonly endStraight: number;
  /** Whether a bend of the bar comes within reach of the joint, so that the wall lines must be walked. */
  readonly walked: boolean;
}

/**
 * Sets up the joint at one end that lands on bars or on a plate (geometry.md, "Which part of the bar is the joint",
 * "`also` hosts", "Hosts end"). `lookup` finds the bars that the ends of an `also` host land on. With `assumed` an end
 * that is straight until it is clear of one bent host is taken to have one stretch of rings with it, which is known
 * from the curve once it is there (`isOneStretch`) and spares looking for the rings.
 */
export function jointOf(
  bar: ResolvedBar,
  end: End,
  hostBars: readonly ResolvedBar[],
  lookup: Lookup = (id) => hostBars.find((h) => h.id === id),
  assumed = false,
): Joint {
  const { centreline: line, tube } = bar;
  const axes = endAxes(line, end);
  const path = endPath(line, end, axes);
  const endStraight = path[0]!.b1;
  const outside = tube.od / 2;
  const seat = bar.seat[end];
  const on = seat.kind === "plate" ? metPlate(seat, tube.od, axes) : metOn(hostBars[0]!, seat, axes, tube.od);
  const others = hostBars.slice(1).map((h) => metAlso(h, alsoHost(h, axes, lookup), axes, tube.od));

  const straight =
    others.length === 0 ? straightJoint(on, outside, Math.min(endStraight, line.length), assumed) : undefined;
  const { joint, joints, from } = straight ?? lookedFor(bar, path, on, others);
  const counts = (s: Stretch | undefined): boolean => s !== undefined && overlap(s, joint);
  const all: readonly Met[] = [on, ...others.filter((_, i) => counts(joints[i]))];
  const solids = all.map((m) => m.host);
  const reach = (rho: number): number => all.reduce((far, m) => Math.max(far, m.reach(rho)), 0);
  const walked = from > endStraight;
  const near = walked ? solids : solids.map((s) => within(s, from, reach(outside), outside));
  const runsAlong = joint.inner - joint.outer > on.longest || joint.inner >= line.length - SAME_PLACE;
  const lines = readyToMeet(near, path, from);
  const back = (rho: number, cos: number, sin: number): number => {
    lines.ray.x = rho * cos;
    lines.ray.y = rho * sin;
    lines.ray.z1 = reach(rho);
    return firstBack(lines);
  };
  const { ended } = on;
  return {
    axes,
    hosts: all.flatMap(({ bar: met }, i) =>
      met ? { ...met, straight: !near[i]!.some((p) => p.piece.kind === "bow") } : [],
    ),
    apart: others.flatMap(({ bar: met }, i) => {
      const other = joints[i];
      return counts(other)
        ? []
        : { id: met!.id, fartherIn: other !== undefined && other.outer > joint.inner };
    }),
    solids,
    from,
    ...(straight?.assumed ? { assumed: true } : {}),
    ...(runsAlong ? { along: joint } : {}),
    back,
    curve: (rho) => {
      const curve = new Float64Array(LINES);
      for (let i = 0; i < LINES; i++) curve[i] = back(rho, ROUND[i]![1], ROUND[i]![0]);
      return curve;
    },
    meetsFirst: (rho, cos, sin, back) => {
      const p = wallAt(path, rho * cos, rho * sin, back);
      return nearest([on.host], p[0], p[1], p[2]) <= SAME_PLACE;
    },
    ...(ended
      ? {
          beyondHost: (rho, cos, sin, back) => {
            if (Number.isNaN(back)) return false;
            const p = wallAt(path, rho * cos, rho * sin, back);
            return nearest([ended, ...solids.slice(1)], p[0], p[1], p[2]) > SAME_PLACE;
          },
        }
      : {}),
    endStraight,
    walked,
  };
}

/** Included angle γ between the bar and a host's direction at the joint (radians, 0 to π/2). */
export const includedAngle = (dir: Vec): number => {
  const u: Vec = [0, 0, 1];
  return Math.atan2(len(cross(u, dir)), Math.abs(dot(u, dir)));
};
