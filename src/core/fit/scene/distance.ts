// biome-ignore-all lint/style/noNonNullAssertion: segments have six numbers each and places three, and loops step by as many below their length.
import type { Vec } from "../../space/index.ts";
import { pointSegmentDistanceSquared, segmentDistanceSquared } from "./capsules.ts";
import { type Facet, height, type Obstacle, over } from "./scene.ts";
import { farFromSlab, slabSegments } from "./slab.ts";

/** Least distance of segments of radius r to one obstacle, `bound` where it is no less (mm). */
export function segmentsTo(o: Obstacle, segments: Float64Array, r: number, bound: number): number {
  let best = bound;
  if (o.kind === "floor") return Math.min(best, lowest(segments) - r - o.z);
  if (o.kind === "plate") return slabSegments(o.slab, segments, r, best);
  if (o.kind === "panel") {
    for (const f of o.facets) best = Math.min(best, facetSegments(f, segments, r, best));
    return best;
  }
  const { capsules } = o;
  const radii = r + capsules.radius;
  for (let i = 0; i < segments.length; i += 6) {
    for (const other of capsules.runs) {
      const [x, y, z] = other.centre;
      if (
        other.first !== other.last &&
        Math.sqrt(pointSegmentDistanceSquared(x, y, z, segments, i)) - other.reach - radii >= best
      )
        continue;
      for (let j = other.first; j <= other.last; j++) {
        const d = Math.sqrt(segmentDistanceSquared(segments, i, capsules.segments, 6 * j)) - radii;
        if (d < best) best = d;
      }
    }
  }
  return best;
}

/** Whether nothing of an obstacle is nearer than `best` to a sphere. */
export function tooFar(o: Obstacle, centre: Vec, reach: number, best: number): boolean {
  const [x, y, z] = centre;
  if (o.kind === "floor") return z - reach - o.z >= best;
  if (o.kind === "plate") return farFromSlab(o.slab, x, y, z) - reach >= best;
  if (o.kind === "panel") {
    return o.facets.every(
      (f) => Math.hypot(x - f.centre[0], y - f.centre[1], z - f.centre[2]) - reach - f.reach >= best,
    );
  }
  const { capsules } = o;
  for (let j = 0; j < capsules.segments.length; j += 6) {
    if (
      Math.sqrt(pointSegmentDistanceSquared(x, y, z, capsules.segments, j)) - reach - capsules.radius <
      best
    )
      return false;
  }
  return true;
}

/** The least height of segments or places. */
export function lowest(segments: Float64Array): number {
  let z = Infinity;
  for (let i = 2; i < segments.length; i += 3) if (segments[i]! < z) z = segments[i]!;
  return z;
}

/** Least distance of segments of radius r to a facet; where a segment crosses it, minus r. */
export function facetSegments(f: Facet, segments: Float64Array, r: number, bound: number): number {
  let best = bound;
  const [cx, cy, cz] = f.centre;
  for (let i = 0; i < segments.length; i += 6) {
    if (Math.sqrt(pointSegmentDistanceSquared(cx, cy, cz, segments, i)) - f.reach - r >= best) continue;
    const h1 = height(f, segments[i]!, segments[i + 1]!, segments[i + 2]!);
    const h2 = height(f, segments[i + 3]!, segments[i + 4]!, segments[i + 5]!);
    if (h1 * h2 <= 0 && h1 !== h2) {
      const t = h1 / (h1 - h2);
      const x = segments[i]! + t * (segments[i + 3]! - segments[i]!);
      const y = segments[i + 1]! + t * (segments[i + 4]! - segments[i + 1]!);
      const z = segments[i + 2]! + t * (segments[i + 5]! - segments[i + 2]!);
      if (over(f, x, y, z)) return -r;
    }
    if (Math.abs(h1) - r < best && over(f, segments[i]!, segments[i + 1]!, segments[i + 2]!))
      best = Math.abs(h1) - r;
    if (Math.abs(h2) - r < best && over(f, segments[i + 3]!, segments[i + 4]!, segments[i + 5]!))
      best = Math.abs(h2) - r;
    for (let e = 0; e < f.edges.length; e += 6) {
      const d = Math.sqrt(segmentDistanceSquared(segments, i, f.edges, e)) - r;
      if (d < best) best = d;
    }
  }
  return best;
}
