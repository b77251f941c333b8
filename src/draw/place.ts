import { sinCosDeg } from "../core/numeric/index.ts";
import type { Point } from "./types.ts";

/** A turn (degrees, clockwise as seen) about the origin, then a move. */
export interface Placement {
  readonly at: Point;
  readonly rotate: number;
}

/** Where a place in the group lies in the frame that holds the group. Exact for quarter turns. */
export function placed([x, y]: Point, { at, rotate }: Placement): Point {
  const [s, c] = sinCosDeg(rotate);
  return [at[0] + c * x - s * y, at[1] + s * x + c * y];
}

/** The place at an angle (degrees, clockwise as seen from +x) on a circle. */
export function onCircle(centre: Point, radius: number, angle: number): Point {
  const [s, c] = sinCosDeg(angle);
  return [centre[0] + radius * c, centre[1] + radius * s];
}

/** Unit vectors of lettering turned by `rotate`: along the words, and up the capitals. */
export function upright(rotate: number): readonly [along: Point, up: Point] {
  const [s, c] = sinCosDeg(rotate);
  return [
    [c, s],
    [s, -c],
  ];
}
