// biome-ignore-all lint/style/noNonNullAssertion: segments have six numbers each and places three, and loops step by as many below their length.
import { goldenLeast } from "../../numeric/index.ts";
import {
  anyPerpendicular,
  cross,
  dot,
  len,
  mapVec,
  type Outline,
  PLATE_THICKNESS,
  scale,
  sub,
  type Vec,
} from "../../space/index.ts";
import { pointSegmentDistanceSquared } from "./capsules.ts";

/**
 * A plate as a solid: what lies behind its outline, as deep as it is thick. `x`, `y` and `normal` are square to each
 * other, length 1; half sizes along `x` and `y`, or a radius (mm).
 */
export interface Slab {
  /** Middle of the face that the bar is on. */
  readonly at: Vec;
  readonly normal: Vec;
  readonly x: Vec;
  readonly y: Vec;
  readonly half: readonly [number, number] | undefined;
  readonly radius: number;
  readonly thickness: number;
  /** Middle of the solid, and a radius that holds it. */
  readonly centre: Vec;
  readonly reach: number;
}

export function slabOf(at: Vec, normal: Vec, outline: Outline, thickness = PLATE_THICKNESS): Slab {
  const isRound = outline.kind === "disc";
  const x = isRound ? anyPerpendicular(normal) : outline.x;
  const radius = isRound ? outline.radius : Math.hypot(...outline.half);
  return {
    at,
    normal,
    x,
    y: isRound ? cross(normal, x) : outline.y,
    half: isRound ? undefined : outline.half,
    radius,
    thickness,
    centre: sub(at, scale(normal, thickness / 2)),
    reach: Math.hypot(radius, thickness / 2),
  };
}

/**
 * Signed distance (mm) from a place to a slab; negative inside it. Exact: the distance to a box, or to a short cylinder,
 * from how far the place is beyond its side and beyond its face or back.
 */
export function farFromSlab(s: Slab, px: number, py: number, pz: number): number {
  const vx = px - s.at[0];
  const vy = py - s.at[1];
  const vz = pz - s.at[2];
  const h = vx * s.normal[0] + vy * s.normal[1] + vz * s.normal[2];
  const up = Math.max(h, -s.thickness - h);
  const a = vx * s.x[0] + vy * s.x[1] + vz * s.x[2];
  const b = vx * s.y[0] + vy * s.y[1] + vz * s.y[2];
  if (!s.half) {
    const aside = Math.hypot(a, b) - s.radius;
    return aside > 0 && up > 0 ? Math.hypot(aside, up) : Math.max(aside, up);
  }
  const p = Math.abs(a) - s.half[0];
  const q = Math.abs(b) - s.half[1];
  if (p <= 0 && q <= 0 && up <= 0) return Math.max(p, q, up);
  return Math.hypot(Math.max(0, p), Math.max(0, q), Math.max(0, up));
}

/** The direction (length 1) in which a place gets away from a slab fastest. */
export function awayFromSlab(s: Slab, p: Vec): Vec {
  const v = sub(p, s.at);
  const h = dot(v, s.normal);
  const up = Math.max(h, -s.thickness - h);
  const upward = scale(s.normal, h > -s.thickness - h ? 1 : -1);
  const a = dot(v, s.x);
  const b = dot(v, s.y);
  const size = Math.hypot(a, b) || 1;
  const sides: readonly (readonly [number, Vec])[] = s.half
    ? [
        [Math.abs(a) - s.half[0], scale(s.x, Math.sign(a) || 1)],
        [Math.abs(b) - s.half[1], scale(s.y, Math.sign(b) || 1)],
        [up, upward],
      ]
    : [
        [Math.hypot(a, b) - s.radius, mapVec(s.x, (x, k) => (a * x + b * s.y[k]) / size)],
        [up, upward],
      ];
  let out: Vec = [0, 0, 0];
  for (const [by, d] of sides) if (by > 0) out = [out[0] + by * d[0], out[1] + by * d[1], out[2] + by * d[2]];
  const far = len(out);
  if (far > 0) return scale(out, 1 / far);
  return sides.reduce((best, side) => (side[0] > best[0] ? side : best))[1];
}

/** How exactly the nearest place of a segment is found (mm). */
const TO = 1e-4;

/**
 * The least signed distance of a segment's middle line (six numbers at `i`) from a slab where it is below `bound`, and how
 * far along the segment (0 to 1). The distance to a convex solid is convex along a line, so that one look on from an end
 * says whether that end is nearest, and golden section finds what lies between.
 */
export function segmentFromSlab(
  s: Slab,
  segments: Float64Array,
  i: number,
  bound: number,
): { readonly far: number; readonly t: number } | undefined {
  // Nothing of the plate is nearer than the ball that holds it.
  const [cx, cy, cz] = s.centre;
  if (Math.sqrt(pointSegmentDistanceSquared(cx, cy, cz, segments, i)) - s.reach >= bound) return undefined;
  const ax = segments[i]!;
  const ay = segments[i + 1]!;
  const az = segments[i + 2]!;
  const dx = segments[i + 3]! - ax;
  const dy = segments[i + 4]! - ay;
  const dz = segments[i + 5]! - az;
  const length = Math.hypot(dx, dy, dz);
  const at = (t: number): number => farFromSlab(s, ax + t * dx, ay + t * dy, az + t * dz);
  if (at(0.5) - length / 2 >= bound) return undefined;
  const step = length > 0 ? Math.min(0.5, 1e-3 / length) : 0;
  const first = at(0);
  const last = at(1);
  const t =
    at(step) >= first
      ? 0
      : at(1 - step) >= last
        ? 1
        : goldenLeast(
            at,
            0,
            1,
            length > 0 ? TO / length : 1,
            (value, width) => value - width * length >= bound,
          );
  const far = Math.min(first, last, at(t));
  return far < bound ? { far, t: far === first ? 0 : far === last ? 1 : t } : undefined;
}

/** Least signed distance of segments of radius r from a slab, `bound` where it is no less (mm). */
export function slabSegments(s: Slab, segments: Float64Array, r: number, bound: number): number {
  let best = bound;
  for (let i = 0; i < segments.length; i += 6) {
    const got = segmentFromSlab(s, segments, i, best + r);
    if (got) best = got.far - r;
  }
  return best;
}

/** The same of places, three numbers each. */
export function slabPlaces(s: Slab, places: Float64Array, bound: number): number {
  let best = bound;
  for (let i = 0; i < places.length; i += 3) {
    const d = farFromSlab(s, places[i]!, places[i + 1]!, places[i + 2]!);
    if (d < best) best = d;
  }
  return best;
}
