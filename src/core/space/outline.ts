import { cross, dot, sub, type Vec } from "./vec.ts";

/** The outline of a flat plate about its place `at`, in its own plane (mm). */
export type Outline =
  /** `x` and `y` are square to each other and to the normal, length 1. */
  | { readonly kind: "rectangle"; readonly x: Vec; readonly y: Vec; readonly half: readonly [number, number] }
  | { readonly kind: "disc"; readonly radius: number };

/**
 * A plate's outline: with `size` and `along` that rectangle, its first size along `along`; with `size` alone a disc of
 * its half diagonal, which holds the rectangle whichever way it lies; with neither a disc of the radius `unsized`
 * (geometry.md, "Hosts end"). Directions have length 1, `along` square to the normal.
 */
export function outlineOf(
  plate: { readonly normal: Vec; readonly size?: readonly [number, number]; readonly along?: Vec },
  unsized: number,
): Outline {
  const { size, along, normal } = plate;
  if (!size) return { kind: "disc", radius: unsized };
  if (!along) return { kind: "disc", radius: Math.hypot(...size) / 2 };
  return { kind: "rectangle", x: along, y: cross(normal, along), half: [size[0] / 2, size[1] / 2] };
}

/**
 * Signed distance (mm) in the plate's plane from the outline to a place (its part along the normal left out): negative
 * inside.
 */
export function beyondOutline(outline: Outline, at: Vec, normal: Vec, place: Vec): number {
  const v = sub(place, at);
  if (outline.kind === "disc") {
    const up = dot(v, normal);
    return Math.sqrt(Math.max(0, dot(v, v) - up * up)) - outline.radius;
  }
  const px = Math.abs(dot(v, outline.x)) - outline.half[0];
  const py = Math.abs(dot(v, outline.y)) - outline.half[1];
  return px > 0 && py > 0 ? Math.hypot(px, py) : Math.max(px, py);
}

/** Thickness (mm) of a plate whose thickness nobody gave: the thinnest that is common under cage feet (common practice, no source). */
export const PLATE_THICKNESS = 3;

/**
 * Radius (mm) of the disc that is taken for a plate without a size: 1.5 times the outside diameter of the bar on it over
 * the cosine of the angle between that bar and the plate's normal (geometry.md, "Hosts end").
 */
export const unsizedRadius = (od: number, cosine: number): number =>
  (1.5 * od) / Math.max(1e-3, Math.abs(cosine));
