// biome-ignore-all lint/style/noNonNullAssertion: segments have six numbers each, perWall of them a wall line, and indices run below these.
import type { Vec } from "../../space/index.ts";
import { pointSegmentDistanceSquared, segmentDistanceSquared } from "./capsules.ts";
import { facetSegments, lowest } from "./distance.ts";
import type { Obstacle } from "./scene.ts";
import { slabPlaces, slabSegments } from "./slab.ts";
import type { SolidEnd } from "./solid.ts";

/** The wall lines and the bore rim of one end against one obstacle. */
export function endTo(
  o: Obstacle,
  end: SolidEnd,
  centre: Vec,
  walls: Float64Array,
  bore: Float64Array,
  bound: number,
): number {
  let best = bound;
  if (o.kind === "floor") return Math.min(best, lowest(walls) - o.z);
  if (o.kind === "plate") return slabPlaces(o.slab, bore, slabSegments(o.slab, walls, 0, best));
  if (o.kind === "panel") {
    for (const f of o.facets) best = Math.min(best, facetSegments(f, walls, 0, best));
    return best;
  }
  const { segments, radius, spans } = o.capsules;
  const [x, y, z] = centre;
  for (const [first, last] of spans) {
    // The part of the span that this end can reach.
    let a = first;
    let b = last;
    while (
      a <= b &&
      Math.sqrt(pointSegmentDistanceSquared(x, y, z, segments, 6 * a)) - end.reach - radius >= best
    )
      a++;
    while (
      b >= a &&
      Math.sqrt(pointSegmentDistanceSquared(x, y, z, segments, 6 * b)) - end.reach - radius >= best
    )
      b--;
    if (a > b) continue;
    best = Math.min(
      best,
      walk(walls, 6, segments, a, b, radius, best),
      walk(bore, 3, segments, a, b, radius, best),
    );
  }
  return best;
}

/**
 * Least distance of wall lines (6 numbers each) or places (3) to the segments a to b of one bend. Along a bend of less
 * than half a turn the distance falls and then rises, and neighbours round the end have their nearest segments close
 * together: from one line's nearest segment the next one's is found by walking downhill.
 */
function walk(
  from: Float64Array,
  stride: 3 | 6,
  segments: Float64Array,
  a: number,
  b: number,
  radius: number,
  bound: number,
): number {
  const to = (i: number, j: number): number =>
    stride === 6
      ? segmentDistanceSquared(from, i, segments, 6 * j)
      : pointSegmentDistanceSquared(from[i]!, from[i + 1]!, from[i + 2]!, segments, 6 * j);
  let best = bound;
  let j = (a + b) >> 1;
  for (let i = 0; i < from.length; i += stride) {
    let d = to(i, j);
    if (a < b) {
      const step = j < b && to(i, j + 1) < d ? 1 : -1;
      for (;;) {
        if (j + step < a || j + step > b) break;
        const next = to(i, j + step);
        if (next >= d) break;
        d = next;
        j += step;
      }
    }
    const gap = Math.sqrt(d) - radius;
    if (gap < best) best = gap;
  }
  return best;
}
