import { along, dot, scale, type Vec } from "../space/index.ts";

/** Which way is up in the car's axes (length 1), and how that turns with the shell's lean along and across (radians). */
export interface Attitude {
  readonly lean: readonly [number, number];
  readonly up: Vec;
  readonly by: readonly [Vec, Vec];
}

/**
 * Up, for a shell whose x axis rises forward by `a` and whose y axis rises to the left by `b` (radians, from level).
 *
 * Formula: x̂·u = sin a and ŷ·u = sin b say all: u = (sin a, sin b, √(1 − sin²a − sin²b)).
 * Range: |a| and |b| up to 45° together; beyond that no sill stands.
 */
export function attitudeOf(a: number, b: number): Attitude {
  const [x, y] = [Math.sin(a), Math.sin(b)];
  const z = Math.sqrt(Math.max(1e-6, 1 - x * x - y * y));
  return {
    lean: [a, b],
    up: [x, y, z],
    by: [
      [Math.cos(a), 0, (-x * Math.cos(a)) / z],
      [0, Math.cos(b), (-y * Math.cos(b)) / z],
    ],
  };
}

/** A direction of the car less its rise: the part square to up, and how that turns with the lean. */
export function level(
  axis: Vec,
  attitude: Attitude,
): { readonly dir: Vec; readonly by: readonly [Vec, Vec] } {
  const rise = dot(axis, attitude.up);
  const turned = (by: Vec): Vec => along(scale(attitude.up, -dot(axis, by)), by, -rise);
  return { dir: along(axis, attitude.up, -rise), by: [turned(attitude.by[0]), turned(attitude.by[1])] };
}
