import { dot, type Vec } from "../../core/space/index.ts";
import type { Axes } from "./camera.ts";

type Covariance = readonly [Vec, Vec, Vec];

/**
 * Half axes of the body that holds the true place in 95 of 100, over those of one standard deviation: the square root of
 * the 95 % point of χ² with 3 degrees of freedom, 7.815 (NIST/SEMATECH e-Handbook, 1.3.6.7.4).
 */
export const NINETY_FIVE = Math.sqrt(7.815);

/** An ellipse in the picture's plane. */
export interface Ellipse {
  /** Half axes (mm), the greater first. */
  readonly major: number;
  readonly minor: number;
  /** From the picture's right to the greater axis, toward up (radians). */
  readonly turn: number;
}

/**
 * The outline in which the body {d : dᵀC⁻¹d = k²} of a covariance C (mm²) is seen along parallel rays: with u a direction
 * in the picture, it reaches k√(uᵀCu) that way, so its outline has the covariance of the two coordinates in the picture.
 */
export function ellipseOf(
  c: Covariance,
  { right, up }: Pick<Axes, "right" | "up">,
  k = NINETY_FIVE,
): Ellipse {
  const common = (a: Vec, b: Vec): number => dot([dot(c[0], b), dot(c[1], b), dot(c[2], b)], a);
  const [rr, ru, uu] = [common(right, right), common(right, up), common(up, up)];
  const mean = (rr + uu) / 2;
  const spread = Math.hypot((rr - uu) / 2, ru);
  return {
    major: k * Math.sqrt(mean + spread),
    minor: k * Math.sqrt(Math.max(0, mean - spread)),
    turn: Math.atan2(2 * ru, rr - uu) / 2,
  };
}
