// biome-ignore-all lint/style/noNonNullAssertion: segments have six numbers each, and i and j are starts of segments; k is 0, 1 or 2 in lists of three; points are looked at below their number.
import { type Centreline, onArc, type Piece } from "../../bar/index.ts";
import { along, mapVec, type Vec } from "../../space/index.ts";

/**
 * A row of capsules of one radius: a tube as a polyline. Bends are cut into chords so short that the polyline
 * keeps within SAG of the true centreline.
 */
export interface Capsules {
  /** Six numbers a segment: from, to (mm). */
  readonly segments: Float64Array;
  readonly radius: number;
  /** Runs of segments that lie together, with a sphere round their centreline. */
  readonly runs: readonly Run[];
  /** Rods of one straight or one bend: first, last. */
  readonly spans: readonly (readonly [number, number])[];
}

export interface Run {
  readonly first: number;
  readonly last: number;
  readonly centre: Vec;
  readonly reach: number;
}

/** How far a chord may lie off its bend (mm); half of it on either side. */
export const SAG = 0.006;

const RUN = 6;

/** The part of a centreline between two stations (mm) as segments. */
export function capsulesOf(line: Centreline, from: number, to: number, radius: number): Capsules {
  const segments: number[] = [];
  const runs: Run[] = [];
  const spans: (readonly [number, number])[] = [];
  for (const piece of line.pieces) {
    const first = piece === line.pieces[0];
    const last = piece === line.pieces[line.pieces.length - 1];
    const a = first ? from - piece.s0 : Math.max(0, from - piece.s0);
    const b = last ? to - piece.s0 : Math.min(piece.length, to - piece.s0);
    if (!(b > a)) continue;
    const before = segments.length / 6;
    addPoints(pointsOf(piece, a, b), segments, runs);
    spans.push([before, segments.length / 6 - 1]);
  }
  return { segments: Float64Array.from(segments), radius, runs, spans };
}

/** Capsules through a row of places. */
export function capsulesThrough(points: readonly Vec[], radius: number): Capsules {
  const segments: number[] = [];
  const runs: Run[] = [];
  if (points.length === 1) addPoints([points[0]!, points[0]!], segments, runs);
  else addPoints(points, segments, runs);
  const spans = Array.from({ length: segments.length / 6 }, (_, i) => [i, i] as const);
  return { segments: Float64Array.from(segments), radius, runs, spans };
}

/** Places along one piece between a and b mm after its start; on a bend a little outside, so that chords straddle it. */
function pointsOf(piece: Piece, a: number, b: number): Vec[] {
  if (piece.kind === "straight") return [along(piece.from, piece.dir, a), along(piece.from, piece.dir, b)];
  const widest = 2 * Math.acos(1 - SAG / piece.radius);
  const n = Math.max(1, Math.ceil((b - a) / piece.radius / widest));
  const step = (b - a) / piece.radius / n;
  const out = 2 / (1 + Math.cos(step / 2));
  return Array.from({ length: n + 1 }, (_, i) => {
    const { at } = onArc(piece, a / piece.radius + i * step);
    return mapVec(piece.centre, (c, k) => c + (at[k] - c) * out);
  });
}

function addPoints(points: readonly Vec[], segments: number[], runs: Run[]): void {
  for (let i = 0; i + 1 < points.length; i += RUN) {
    const part = points.slice(i, i + RUN + 1);
    const first = segments.length / 6;
    for (let k = 0; k + 1 < part.length; k++) segments.push(...part[k]!, ...part[k + 1]!);
    runs.push({ first, last: segments.length / 6 - 1, ...boundingSphere(part) });
  }
}

/** A sphere round some places: about the middle of their box. */
export function boundingSphere(points: readonly Vec[]): { centre: Vec; reach: number } {
  const lo = [Infinity, Infinity, Infinity];
  const hi = [-Infinity, -Infinity, -Infinity];
  for (const p of points)
    for (let k = 0; k < 3; k++) {
      lo[k] = Math.min(lo[k]!, p[k]!);
      hi[k] = Math.max(hi[k]!, p[k]!);
    }
  const centre: Vec = [(lo[0]! + hi[0]!) / 2, (lo[1]! + hi[1]!) / 2, (lo[2]! + hi[2]!) / 2];
  const reach = Math.max(
    ...points.map((p) => Math.hypot(p[0] - centre[0], p[1] - centre[1], p[2] - centre[2])),
  );
  return { centre, reach };
}

/**
 * Squared distance between two segments, given as from and to (C. Ericson, Real-Time Collision Detection, 2005,
 * section 5.1.9: the closest points of the two lines, clamped to one segment and then to the other).
 */
export function segmentDistanceSquared(a: Float64Array, i: number, b: Float64Array, j: number): number {
  const px = a[i]!;
  const py = a[i + 1]!;
  const pz = a[i + 2]!;
  const d1x = a[i + 3]! - px;
  const d1y = a[i + 4]! - py;
  const d1z = a[i + 5]! - pz;
  const qx = b[j]!;
  const qy = b[j + 1]!;
  const qz = b[j + 2]!;
  const d2x = b[j + 3]! - qx;
  const d2y = b[j + 4]! - qy;
  const d2z = b[j + 5]! - qz;
  const rx = px - qx;
  const ry = py - qy;
  const rz = pz - qz;
  const A = d1x * d1x + d1y * d1y + d1z * d1z;
  const E = d2x * d2x + d2y * d2y + d2z * d2z;
  const F = d2x * rx + d2y * ry + d2z * rz;
  const C = d1x * rx + d1y * ry + d1z * rz;
  const B = d1x * d2x + d1y * d2y + d1z * d2z;
  const den = A * E - B * B;
  let s = den > 1e-12 * A * E ? clamp01((B * F - C * E) / den) : 0;
  let t = E > 0 ? (B * s + F) / E : 0;
  if (t < 0) {
    t = 0;
    s = A > 0 ? clamp01(-C / A) : 0;
  } else if (t > 1) {
    t = 1;
    s = A > 0 ? clamp01((B - C) / A) : 0;
  }
  const x = rx + s * d1x - t * d2x;
  const y = ry + s * d1y - t * d2y;
  const z = rz + s * d1z - t * d2z;
  return x * x + y * y + z * z;
}

const clamp01 = (v: number): number => Math.min(1, Math.max(0, v));

/** Squared distance from a place to the segment at j. */
export function pointSegmentDistanceSquared(
  x: number,
  y: number,
  z: number,
  b: Float64Array,
  j: number,
): number {
  const qx = b[j]!;
  const qy = b[j + 1]!;
  const qz = b[j + 2]!;
  const dx = b[j + 3]! - qx;
  const dy = b[j + 4]! - qy;
  const dz = b[j + 5]! - qz;
  const l = dx * dx + dy * dy + dz * dz;
  const t = l > 0 ? clamp01(((x - qx) * dx + (y - qy) * dy + (z - qz) * dz) / l) : 0;
  const ex = x - qx - t * dx;
  const ey = y - qy - t * dy;
  const ez = z - qz - t * dz;
  return ex * ex + ey * ey + ez * ez;
}
