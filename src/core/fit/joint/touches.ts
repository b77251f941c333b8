// biome-ignore-all lint/style/noNonNullAssertion: segments have six numbers each and places three, and loops step by as many below their length.
import { along, cross, dot, lerp, neg, scale, sub, UP, type Vec } from "../../space/index.ts";
import {
  awayFromSlab,
  closestPoints,
  type Facet,
  height,
  over,
  type Pose,
  placed,
  pointSegmentDistanceSquared,
  type Scene,
  type Slab,
  type Solid,
  segmentDistanceSquared,
  segmentFromSlab,
} from "../scene/index.ts";

/** A place of a posed bar near an obstacle: its distance from it (mm) and the direction away from it. */
export interface Touch {
  readonly at: Vec;
  readonly normal: Vec;
  readonly distance: number;
  /** Index in the scene's list. */
  readonly obstacle: number;
}

/**
 * The places where a posed bar is within `near` (mm) of what stands: one for every second wall line and bore place of
 * its ends, for each sharp point of its rims, and one for each segment of its core. A segment that has gone through a panel is left to the checker.
 */
export function touchesOf(solid: Solid, pose: Pose, scene: Scene, near: number): readonly Touch[] {
  const out: Touch[] = [];
  const move = (from: Float64Array, i: number): Vec =>
    placed(pose, solid.about, [from[i]!, from[i + 1]!, from[i + 2]!]);
  const core: number[] = [];
  for (let i = 0; i < solid.core.segments.length; i += 3) core.push(...move(solid.core.segments, i));
  const coreSegments = Float64Array.from(core);
  const ends = solid.ends.map((end) => {
    const lines: number[] = [];
    const places: number[] = [];
    for (let i = 0; i < end.walls.length; i += 6) {
      if ((i / 6 / end.perWall) % 2 < 1) lines.push(...move(end.walls, i), ...move(end.walls, i + 3));
    }
    for (let i = 0; i < end.tips.walls.length; i += 3) lines.push(...move(end.tips.walls, i));
    for (let i = 0; i < end.bore.length; i += 6) places.push(...move(end.bore, i));
    for (let i = 0; i < end.tips.bore.length; i += 3) places.push(...move(end.tips.bore, i));
    return {
      centre: placed(pose, solid.about, end.centre),
      reach: end.reach,
      lines: Float64Array.from(lines),
      places: Float64Array.from(places),
    };
  });
  scene.obstacles.forEach((o, obstacle) => {
    if (o.kind === "floor") {
      for (const e of ends) floorTouches(o.z, e.lines, 0, obstacle, near, out);
      floorTouches(o.z, coreSegments, solid.radius, obstacle, near, out);
      return;
    }
    if (o.kind === "plate") {
      slabTouches(o.slab, coreSegments, solid.radius, obstacle, near, out);
      for (const e of ends) slabTouches(o.slab, e.lines, 0, obstacle, near, out);
      return;
    }
    if (o.kind === "panel") {
      for (const f of o.facets) {
        facetTouches(f, coreSegments, solid.radius, obstacle, near, out);
        for (const e of ends) {
          const all: Touch[] = [];
          facetTouches(f, e.lines, 0, obstacle, near, all);
          // A flat sheet is met first by a few places of a round end: the nearest stand for the rest.
          out.push(...all.sort((a, b) => a.distance - b.distance).slice(0, FEW));
        }
      }
      return;
    }
    const { segments, radius } = o.capsules;
    nearestOf(coreSegments, 6, segments, all(segments), solid.radius, radius, obstacle, near, out);
    for (const e of ends) {
      const [x, y, z] = e.centre;
      const close = all(segments).filter(
        (j) => Math.sqrt(pointSegmentDistanceSquared(x, y, z, segments, j)) - e.reach - radius < near,
      );
      if (close.length === 0) continue;
      nearestOf(e.lines, 6, segments, close, 0, radius, obstacle, near, out);
      nearestOf(e.places, 3, segments, close, 0, radius, obstacle, near, out);
    }
  });
  return out;
}

const FEW = 8;

const all = (segments: Float64Array): number[] =>
  Array.from({ length: segments.length / 6 }, (_, j) => 6 * j);

function nearestOf(
  from: Float64Array,
  stride: 3 | 6,
  segments: Float64Array,
  close: readonly number[],
  own: number,
  radius: number,
  obstacle: number,
  near: number,
  out: Touch[],
): void {
  for (let i = 0; i < from.length; i += stride) {
    let best = Infinity;
    let segment = 0;
    for (const j of close) {
      const d =
        stride === 6
          ? segmentDistanceSquared(from, i, segments, j)
          : pointSegmentDistanceSquared(from[i]!, from[i + 1]!, from[i + 2]!, segments, j);
      if (d < best) {
        best = d;
        segment = j;
      }
    }
    const distance = Math.sqrt(best) - own - radius;
    if (!(distance < near)) continue;
    const [p, q] = closestPoints(from, i, stride, segments, segment);
    const away = sub(p, q);
    const size = Math.sqrt(dot(away, away));
    if (size < 1e-9) continue;
    const normal = scale(away, 1 / size);
    out.push({
      at: [p[0] - own * normal[0], p[1] - own * normal[1], p[2] - own * normal[2]],
      normal,
      distance,
      obstacle,
    });
  }
}

/** The nearest place of each segment of one radius to a plate. */
function slabTouches(
  slab: Slab,
  segments: Float64Array,
  own: number,
  obstacle: number,
  near: number,
  out: Touch[],
): void {
  for (let i = 0; i < segments.length; i += 6) {
    const got = segmentFromSlab(slab, segments, i, near + own);
    if (!got) continue;
    const [a, b]: [Vec, Vec] = [
      [segments[i]!, segments[i + 1]!, segments[i + 2]!],
      [segments[i + 3]!, segments[i + 4]!, segments[i + 5]!],
    ];
    const p = lerp(a, b, got.t);
    const normal = awayFromSlab(slab, p);
    out.push({ at: along(p, normal, -own), normal, distance: got.far - own, obstacle });
  }
}

/** Places of segments of one radius over or under a facet, and beside its edges. */
function facetTouches(
  f: Facet,
  segments: Float64Array,
  own: number,
  obstacle: number,
  near: number,
  out: Touch[],
): void {
  const [x, y, z] = f.centre;
  for (let i = 0; i < segments.length; i += 6) {
    if (Math.sqrt(pointSegmentDistanceSquared(x, y, z, segments, i)) - f.reach - own >= near) continue;
    for (const k of [i, i + 3]) {
      const p: Vec = [segments[k]!, segments[k + 1]!, segments[k + 2]!];
      const h = height(f, ...p);
      if (Math.abs(h) - own >= near || !over(f, ...p)) continue;
      const normal = h < 0 ? neg(f.normal) : f.normal;
      out.push({ at: along(p, normal, -own), normal, distance: Math.abs(h) - own, obstacle });
    }
    nearestOf(segments.subarray(i, i + 6), 6, f.edges, all(f.edges), own, 0, obstacle, near, out);
  }
}

function floorTouches(
  floor: number,
  segments: Float64Array,
  own: number,
  obstacle: number,
  near: number,
  out: Touch[],
): void {
  for (let i = 0; i < segments.length; i += 3) {
    const distance = segments[i + 2]! - own - floor;
    if (distance < near) {
      out.push({
        at: [segments[i]!, segments[i + 1]!, segments[i + 2]! - own],
        normal: UP,
        distance,
        obstacle,
      });
    }
  }
}

/** How fast a touch opens per unit of each of six unknowns: shift, and turn about c in units of 1/size. */
export const opening = (t: { readonly at: Vec; readonly normal: Vec }, c: Vec, size: number): number[] => [
  ...t.normal,
  ...scale(cross(sub(t.at, c), t.normal), 1 / size),
];
