import type { Mark, Point } from "../types.ts";

/** Parallel narrow lines over the inside (even-odd) of a polygon; spacing mm, angle degrees clockwise as seen. */
export function hatch(_polygon: readonly Point[], _spacing = 3, _angle = -45): Mark[] {
  throw new Error("being written");
}
