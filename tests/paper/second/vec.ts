/** Places and directions of the second computation: [x, y, z] in mm or of length 1. */
export type V = readonly [number, number, number];

export const plus = (a: V, b: V): V => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const minus = (a: V, b: V): V => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const times = (a: V, k: number): V => [a[0] * k, a[1] * k, a[2] * k];
export const go = (a: V, d: V, k: number): V => [a[0] + d[0] * k, a[1] + d[1] * k, a[2] + d[2] * k];
export const inner = (a: V, b: V): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const outer = (a: V, b: V): V => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const size = (a: V): number => Math.sqrt(inner(a, a));
export const apart = (a: V, b: V): number => size(minus(a, b));
export const toOne = (a: V): V => times(a, 1 / size(a));
/** What is left of `a` square to the direction `d`. */
export const across = (a: V, d: V): V => go(a, d, -inner(a, d));
export const flipped = (a: V): V => [a[0], -a[1], a[2]];
/** Angle between two directions, by the chord, which keeps its digits near 0 and near half a turn. */
export const opening = (a: V, b: V): number => {
  const [p, q] = [toOne(a), toOne(b)];
  return 2 * Math.atan2(size(minus(p, q)), size(plus(p, q)));
};
/** `a` turned by `angle` about the axis `n`, right-handed (Rodrigues). */
export const spun = (a: V, n: V, angle: number): V => {
  const c = Math.cos(angle);
  return plus(plus(times(a, c), times(outer(n, a), Math.sin(angle))), times(n, inner(n, a) * (1 - c)));
};
/** In (-180, 180], degrees. */
export const halfTurn = (deg: number): number => {
  let d = deg % 360;
  if (d > 180) d -= 360;
  if (d <= -180) d += 360;
  return d;
};
