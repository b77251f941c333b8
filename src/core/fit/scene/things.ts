// biome-ignore-all lint/style/noNonNullAssertion: segments have six numbers each, and loops step by six below their length; only the floor has no box, and it is answered first.
import { type Piece, placeAt } from "../../bar/index.ts";
import type { ResolvedBar } from "../../layout/types.ts";
import { mapVec, type Vec } from "../../space/index.ts";
import { halfExtent } from "../../tube/index.ts";
import { capsulesBox, obstacleBox } from "./box.ts";
import { type Obstacle, over } from "./scene.ts";
import { farFromSlab } from "./slab.ts";

/** Something to measure against: how far a place is from its middle line (or face), and how thick it is. */
export interface Thing {
  readonly id: string;
  readonly radius: number;
  readonly far: (x: number, y: number, z: number) => number;
  /** A sphere that holds its middle line; the floor has none. */
  readonly centre: Vec;
  readonly reach: number;
}

/** A tacked bar: its true cylinders and torus segments. */
export function barThing(bar: ResolvedBar): Thing {
  const { pieces, length } = bar.centreline;
  return {
    id: bar.id,
    radius: halfExtent(bar.tube),
    far: (x, y, z) => {
      let least = Infinity;
      for (const piece of pieces) {
        const d =
          piece.kind === "arc" ? arcDistanceSquared(piece, x, y, z) : straightDistanceSquared(piece, x, y, z);
        if (d < least) least = d;
      }
      return Math.sqrt(least);
    },
    centre: placeAt(bar.centreline, length / 2).at,
    reach: length / 2,
  };
}

/** Squared distance of a place from a straight. */
function straightDistanceSquared(
  s: Extract<Piece, { kind: "straight" }>,
  x: number,
  y: number,
  z: number,
): number {
  const { from, dir } = s;
  const px = x - from[0];
  const py = y - from[1];
  const pz = z - from[2];
  const t = Math.min(s.length, Math.max(0, px * dir[0] + py * dir[1] + pz * dir[2]));
  const ex = px - t * dir[0];
  const ey = py - t * dir[1];
  const ez = pz - t * dir[2];
  return ex * ex + ey * ey + ez * ez;
}

/** Squared distance of a place from a bend: in its sector from the circle, else from the nearer of its ends. */
function arcDistanceSquared(a: Extract<Piece, { kind: "arc" }>, x: number, y: number, z: number): number {
  const { centre, radius } = a;
  const px = x - centre[0];
  const py = y - centre[1];
  const pz = z - centre[2];
  const u = px * a.x[0] + py * a.x[1] + pz * a.x[2];
  const v = px * a.y[0] + py * a.y[1] + pz * a.y[2];
  const w = px * a.n[0] + py * a.n[1] + pz * a.n[2];
  const angle = Math.atan2(v, u);
  const turned = angle < 0 ? angle + 2 * Math.PI : angle;
  if (turned <= a.angle) return (Math.hypot(u, v) - radius) ** 2 + w * w;
  const c = radius * Math.cos(a.angle);
  const s = radius * Math.sin(a.angle);
  return Math.min((u - radius) ** 2 + v * v, (u - c) ** 2 + (v - s) ** 2) + w * w;
}

/** A plate, panel, line, the driver or the floor. */
export function partThing(o: Obstacle): Thing {
  if (o.kind === "floor") {
    return { id: o.id, radius: 0, far: (_x, _y, z) => z - o.z, centre: [0, 0, 0], reach: Infinity };
  }
  if (o.kind === "plate") {
    const { slab } = o;
    return {
      id: o.id,
      radius: 0,
      far: (x, y, z) => farFromSlab(slab, x, y, z),
      centre: slab.centre,
      reach: slab.reach,
    };
  }
  const box = o.kind === "bar" ? capsulesBox(o.capsules) : obstacleBox(o)!;
  const centre: Vec = mapVec(box.lo, (lo, k) => (lo + box.hi[k]) / 2);
  const reach = Math.hypot(...mapVec(box.hi, (hi, k) => (hi - box.lo[k]) / 2));
  if (o.kind === "panel") {
    const far = (x: number, y: number, z: number): number => {
      let least = Infinity;
      for (const f of o.facets) {
        const [n, p] = [f.normal, f.at];
        const h = Math.abs((x - p[0]) * n[0] + (y - p[1]) * n[1] + (z - p[2]) * n[2]);
        if (h >= least) continue;
        const d = over(f, x, y, z) ? h : farFromSegments(f.edges, x, y, z);
        if (d < least) least = d;
      }
      return least;
    };
    return { id: o.id, radius: 0, far, centre, reach };
  }
  const { segments, radius } = o.capsules;
  return { id: o.id, radius, far: (x, y, z) => farFromSegments(segments, x, y, z), centre, reach };
}

function farFromSegments(segments: Float64Array, x: number, y: number, z: number): number {
  let least = Infinity;
  for (let i = 0; i < segments.length; i += 6) {
    const ax = segments[i]!;
    const ay = segments[i + 1]!;
    const az = segments[i + 2]!;
    const dx = segments[i + 3]! - ax;
    const dy = segments[i + 4]! - ay;
    const dz = segments[i + 5]! - az;
    const px = x - ax;
    const py = y - ay;
    const pz = z - az;
    const l = dx * dx + dy * dy + dz * dz;
    const t = l > 0 ? Math.min(1, Math.max(0, (px * dx + py * dy + pz * dz) / l)) : 0;
    const ex = px - t * dx;
    const ey = py - t * dy;
    const ez = pz - t * dz;
    least = Math.min(least, ex * ex + ey * ey + ez * ez);
  }
  return Math.sqrt(least);
}
