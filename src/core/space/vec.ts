/** A place or a direction, x forward, y left, z up (mm, or unitless for a direction). */
export type Vec = readonly [number, number, number];

export const ORIGIN: Vec = [0, 0, 0];
export const UP: Vec = [0, 0, 1];
export const FORWARD: Vec = [1, 0, 0];
export const LEFT: Vec = [0, 1, 0];

export const add = (a: Vec, b: Vec): Vec => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub = (a: Vec, b: Vec): Vec => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec, k: number): Vec => [a[0] * k, a[1] * k, a[2] * k];
export const neg = (a: Vec): Vec => [-a[0], -a[1], -a[2]];
/** a + k·d */
export const along = (a: Vec, d: Vec, k: number): Vec => [a[0] + k * d[0], a[1] + k * d[1], a[2] + k * d[2]];
export const dot = (a: Vec, b: Vec): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const len = (a: Vec): number => Math.hypot(a[0], a[1], a[2]);
export const dist = (a: Vec, b: Vec): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
/** a + (b − a)·t */
export const lerp = (a: Vec, b: Vec, t: number): Vec => along(a, sub(b, a), t);

/** The vector whose coordinates `of` makes of those of a, each with its index, in turn. */
export const mapVec = (a: Vec, of: (x: number, k: 0 | 1 | 2) => number): Vec => [
  of(a[0], 0),
  of(a[1], 1),
  of(a[2], 2),
];

/** The direction of a; a must not be of length 0 (an invariant: it throws). */
export function unit(a: Vec): Vec {
  const l = len(a);
  if (!(l > 0)) throw new Error("unit: a vector of length 0 has no direction");
  return scale(a, 1 / l);
}

/** The part of a that is square to the direction d (d of length 1): the vector rejection of a from d. */
export const rejection = (a: Vec, d: Vec): Vec => along(a, d, -dot(a, d));

/** Angle between two directions, exact near 0 and π where an arc cosine is not (radians, 0 to π). */
export const angleBetween = (a: Vec, b: Vec): number => Math.atan2(len(cross(a, b)), dot(a, b));

/** v turned by `angle` (radians) about the axis direction k (length 1), right-handed (Rodrigues). */
export function turn(v: Vec, k: Vec, angle: number): Vec {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const kv = cross(k, v);
  const d = dot(k, v) * (1 - c);
  return [v[0] * c + kv[0] * s + k[0] * d, v[1] * c + kv[1] * s + k[1] * d, v[2] * c + kv[2] * s + k[2] * d];
}

/** Mirrored about the car's centre plane y = 0. */
export const mirrored = (a: Vec): Vec => [a[0], a[1] === 0 ? 0 : -a[1], a[2]];

/** Some direction square to d (length 1); which one is not promised. */
export function anyPerpendicular(d: Vec): Vec {
  const helper: Vec = Math.abs(d[0]) < 0.6 ? FORWARD : LEFT;
  return unit(rejection(helper, d));
}
