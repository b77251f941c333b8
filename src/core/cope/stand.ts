// biome-ignore-all lint/style/noNonNullAssertion: a centreline has one piece at least.
import type { ResolvedBar } from "../layout/types.ts";
import { wrapPi } from "../numeric/index.ts";
import { add, cross, dot, scale, turn, type Vec } from "../space/index.ts";
import type { Cope } from "./types.ts";

/**
 * The angle (radians, in (-π, π]) from a direction square to the bar at end A to one square to it at end B, the first
 * carried along the bar without twist; right-handed about the feed direction A to B, so positive is clockwise seen
 * from A looking toward B. On a straight bar it is the angle between the two directions as seen along it.
 */
export function carriedAngle(bar: ResolvedBar, atA: Vec, atB: Vec): number {
  const carried = bar.centreline.bends.reduce((v, b) => turn(v, b.arc.n, b.angle), atA);
  const pieces = bar.centreline.pieces;
  const last = pieces[pieces.length - 1]!;
  const d: Vec = last.kind === "straight" ? last.dir : last.y;
  return wrapPi(Math.atan2(dot(d, cross(carried, atB)), dot(carried, atB)));
}

/** The direction in the car, square to the bar, of the place φ (radians) round an end; length 1. */
export const squareDirection = (cope: Pick<Cope, "out" | "zero">, phi: number): Vec =>
  add(scale(cope.zero, Math.cos(phi)), scale(cross(cope.out, cope.zero), Math.sin(phi)));
