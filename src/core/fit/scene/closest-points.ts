// biome-ignore-all lint/style/noNonNullAssertion: i and j are starts of segments of six numbers (of places of three, with stride 3).
import { dot, sub, type Vec } from "../../space/index.ts";

/** The closest places of a segment (six numbers at i), or with `stride` 3 of a place, and the segment at j (see segmentDistanceSquared). */
export function closestPoints(
  from: Float64Array,
  i: number,
  stride: 3 | 6,
  segments: Float64Array,
  j: number,
): [Vec, Vec] {
  const a: Vec = [from[i]!, from[i + 1]!, from[i + 2]!];
  const b: Vec = stride === 6 ? [from[i + 3]!, from[i + 4]!, from[i + 5]!] : a;
  const c: Vec = [segments[j]!, segments[j + 1]!, segments[j + 2]!];
  const d: Vec = [segments[j + 3]!, segments[j + 4]!, segments[j + 5]!];
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
