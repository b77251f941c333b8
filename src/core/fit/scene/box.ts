// biome-ignore-all lint/style/noNonNullAssertion: k is 0, 1 or 2 in lists of three, and segments have three numbers a place.
import type { Vec } from "../../space/index.ts";
import type { Capsules } from "./capsules.ts";
import { type Pose, placed } from "./pose.ts";
import type { Obstacle } from "./scene.ts";
import type { Solid } from "./solid.ts";

/** A box square to the car's axes (mm). */
export interface Box {
  readonly lo: Vec;
  readonly hi: Vec;
}

export function boxOf(places: Iterable<Vec>, more = 0): Box {
  const lo = [Infinity, Infinity, Infinity];
  const hi = [-Infinity, -Infinity, -Infinity];
  for (const p of places) {
    for (let k = 0; k < 3; k++) {
      lo[k] = Math.min(lo[k]!, p[k]! - more);
      hi[k] = Math.max(hi[k]!, p[k]! + more);
    }
  }
  return { lo: [lo[0]!, lo[1]!, lo[2]!], hi: [hi[0]!, hi[1]!, hi[2]!] };
}

export const union = (boxes: readonly Box[]): Box => boxOf(boxes.flatMap((b) => [b.lo, b.hi]));

function* places(segments: Float64Array): Iterable<Vec> {
  for (let i = 0; i < segments.length; i += 3) yield [segments[i]!, segments[i + 1]!, segments[i + 2]!];
}

export const capsulesBox = (capsules: Capsules): Box => boxOf(places(capsules.segments), capsules.radius);

/** The box of an obstacle; the floor has none. */
export function obstacleBox(o: Obstacle): Box | undefined {
  if (o.kind === "floor") return undefined;
  if (o.kind === "plate") return boxOf([o.slab.centre], o.slab.reach);
  if (o.kind === "panel") return boxOf(o.facets.flatMap((f) => [...places(f.edges)]));
  return capsulesBox(o.capsules);
}

/** The box of a bar at its seat. */
export const seatBox = (solid: Solid): Box => capsulesBox(solid.whole);

/** The box of a bar at a pose. */
export function solidBox(solid: Solid, pose: Pose): Box {
  const out: Vec[] = [];
  for (const p of places(solid.whole.segments)) out.push(placed(pose, solid.about, p));
  return boxOf(out, solid.radius);
}

/** Distance between two boxes (mm, 0 where they meet). */
export const apart = (a: Box, b: Box): number =>
  Math.hypot(...([0, 1, 2] as const).map((k) => Math.max(0, a.lo[k] - b.hi[k], b.lo[k] - a.hi[k])));
