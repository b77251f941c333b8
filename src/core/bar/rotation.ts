import { cross, dot, type Vec } from "../space/index.ts";

/**
 * Turn between two bends about the leg between them (radians, in (-π, π]), positive clockwise seen from A toward B.
 * A turn within rounding of half a turn is +π, one within rounding of none is 0, so that no sign hangs on noise.
 */
export function rotation(d: Vec, n1: Vec, n2: Vec): number {
  const phi = Math.atan2(dot(d, cross(n1, n2)), dot(n1, n2));
  const noise = 1e-8;
  if (Math.abs(phi) < noise) return 0;
  return Math.PI - Math.abs(phi) < noise ? Math.PI : phi;
}
