import { along, cross, dot, neg, scale, sub, UP, type Vec } from "../../space/index.ts";
import {
  type Facet,
  height,
  type Obstacle,
  over,
  type Pose,
  placed,
  placeRod,
  rodRod,
  type Scene,
  type Solid,
} from "../stuff/index.ts";

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
 * its ends and one for each rod of its core. A rod that has gone through a panel is left to the checker.
 */
export function touchesOf(solid: Solid, pose: Pose, scene: Scene, near: number): readonly Touch[] {
  const out: Touch[] = [];
  const move = (from: Float64Array, i: number): Vec =>
    placed(pose, solid.about, [from[i]!, from[i + 1]!, from[i + 2]!]);
  const core: number[] = [];
  for (let i = 0; i < solid.core.rods.length; i += 3) core.push(...move(solid.core.rods, i));
  const coreRods = Float64Array.from(core);
  const ends = solid.ends.map((end) => {
    const lines: number[] = [];
    const places: number[] = [];
    for (let i = 0; i < end.walls.length; i += 6) {
      if ((i / 6 / end.perWall) % 2 < 1) lines.push(...move(end.walls, i), ...move(end.walls, i + 3));
    }
    for (let i = 0; i < end.bore.length; i += 6) places.push(...move(end.bore, i));
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
      floorTouches(o.z, coreRods, solid.radius, obstacle, near, out);
      return;
    }
    if (o.kind === "plate" || o.kind === "panel") {
      if (o.kind === "plate") for (const e of ends) plateTouches(o, e.lines, obstacle, near, out);
      for (const f of o.facets) {
        facetTouches(f, coreRods, solid.radius, obstacle, near, out);
        if (o.kind === "plate") continue;
        for (const e of ends) {
          const all: Touch[] = [];
          facetTouches(f, e.lines, 0, obstacle, near, all);
          // A flat sheet is met first by a few places of a round end: the nearest stand for the rest.
          out.push(...all.sort((a, b) => a.distance - b.distance).slice(0, FEW));
        }
      }
      return;
    }
    const { rods, radius } = o.chain;
    nearestOf(coreRods, 6, rods, all(rods), solid.radius, radius, obstacle, near, out);
    for (const e of ends) {
      const [x, y, z] = e.centre;
      const close = all(rods).filter((j) => Math.sqrt(placeRod(x, y, z, rods, j)) - e.reach - radius < near);
      if (close.length === 0) continue;
      nearestOf(e.lines, 6, rods, close, 0, radius, obstacle, near, out);
      nearestOf(e.places, 3, rods, close, 0, radius, obstacle, near, out);
    }
  });
  return out;
}

const FEW = 8;

const all = (rods: Float64Array): number[] => Array.from({ length: rods.length / 6 }, (_, j) => 6 * j);

function nearestOf(
  from: Float64Array,
  stride: 3 | 6,
  rods: Float64Array,
  close: readonly number[],
  own: number,
  radius: number,
  obstacle: number,
  near: number,
  out: Touch[],
): void {
  for (let i = 0; i < from.length; i += stride) {
    let best = Infinity;
    let rod = 0;
    for (const j of close) {
      const d =
        stride === 6 ? rodRod(from, i, rods, j) : placeRod(from[i]!, from[i + 1]!, from[i + 2]!, rods, j);
      if (d < best) {
        best = d;
        rod = j;
      }
    }
    const distance = Math.sqrt(best) - own - radius;
    if (!(distance < near)) continue;
    const [p, q] = closest(from, i, stride, rods, rod);
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

/** The closest places of a wall line (or a place) and a rod. */
function closest(from: Float64Array, i: number, stride: 3 | 6, rods: Float64Array, j: number): [Vec, Vec] {
  const a: Vec = [from[i]!, from[i + 1]!, from[i + 2]!];
  const b: Vec = stride === 6 ? [from[i + 3]!, from[i + 4]!, from[i + 5]!] : a;
  const c: Vec = [rods[j]!, rods[j + 1]!, rods[j + 2]!];
  const d: Vec = [rods[j + 3]!, rods[j + 4]!, rods[j + 5]!];
  const u = sub(b, a);
  const v = sub(d, c);
  const r = sub(a, c);
  const A = dot(u, u);
  const E = dot(v, v);
  const B = dot(u, v);
  const C = dot(u, r);
  const F = dot(v, r);
  const den = A * E - B * B;
  let s = A > 0 && den > 1e-12 * A * E ? clamp((B * F - C * E) / den) : 0;
  let t = E > 0 ? (B * s + F) / E : 0;
  if (t < 0) {
    t = 0;
    s = A > 0 ? clamp(-C / A) : 0;
  } else if (t > 1) {
    t = 1;
    s = A > 0 ? clamp((B - C) / A) : 0;
  }
  return [
    [a[0] + s * u[0], a[1] + s * u[1], a[2] + s * u[2]],
    [c[0] + t * v[0], c[1] + t * v[1], c[2] + t * v[2]],
  ];
}

const clamp = (x: number): number => Math.min(1, Math.max(0, x));

function plateTouches(
  o: Extract<Obstacle, { kind: "plate" }>,
  places: Float64Array,
  obstacle: number,
  near: number,
  out: Touch[],
): void {
  for (let i = 0; i < places.length; i += 6) {
    const at: Vec = [places[i]!, places[i + 1]!, places[i + 2]!];
    const from = sub(at, o.at);
    const h = dot(from, o.normal);
    const side = Math.sqrt(Math.max(0, dot(from, from) - h * h));
    if (h < near && h > -o.radius && side < o.radius)
      out.push({ at, normal: o.normal, distance: h, obstacle });
  }
}

/** Places of rods of one radius over or under a facet, and beside its edges. */
function facetTouches(
  f: Facet,
  rods: Float64Array,
  own: number,
  obstacle: number,
  near: number,
  out: Touch[],
): void {
  const [x, y, z] = f.centre;
  for (let i = 0; i < rods.length; i += 6) {
    if (Math.sqrt(placeRod(x, y, z, rods, i)) - f.reach - own >= near) continue;
    for (const k of [i, i + 3]) {
      const p: Vec = [rods[k]!, rods[k + 1]!, rods[k + 2]!];
      const h = height(f, ...p);
      if (Math.abs(h) - own >= near || !over(f, ...p)) continue;
      const normal = h < 0 ? neg(f.normal) : f.normal;
      out.push({ at: along(p, normal, -own), normal, distance: Math.abs(h) - own, obstacle });
    }
    nearestOf(rods.subarray(i, i + 6), 6, f.edges, all(f.edges), own, 0, obstacle, near, out);
  }
}

function floorTouches(
  floor: number,
  rods: Float64Array,
  own: number,
  obstacle: number,
  near: number,
  out: Touch[],
): void {
  for (let i = 0; i < rods.length; i += 3) {
    const distance = rods[i + 2]! - own - floor;
    if (distance < near) {
      out.push({ at: [rods[i]!, rods[i + 1]!, rods[i + 2]! - own], normal: UP, distance, obstacle });
    }
  }
}

/** How fast a touch opens per unit of each of six unknowns: shift, and turn about c in units of 1/size. */
export const opening = (t: { readonly at: Vec; readonly normal: Vec }, c: Vec, size: number): number[] => [
  ...t.normal,
  ...scale(cross(sub(t.at, c), t.normal), 1 / size),
];
