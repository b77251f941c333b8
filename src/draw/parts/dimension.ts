import type { Mark, Point } from "../types.ts";

export interface DimensionOptions {
  /** Height of the figures, mm (3.5). */
  readonly size?: number;
  /** What is measured: the distance itself (aligned), or its share across or down the sheet. */
  readonly along?: "aligned" | "x" | "y";
}

/**
 * A dimension after ISO 129-1. The dimension line lies `offset` mm to the right hand of one who walks
 * from `from` to `to` on the sheet (negative: left hand); the words stand above it.
 */
export function dimension(
  _from: Point,
  _to: Point,
  _offset: number,
  _words: string,
  _options: DimensionOptions = {},
): Mark[] {
  throw new Error("being written");
}

/** The angle at `centre` from direction `from` clockwise to direction `to`, degrees, its arc at `radius` mm. */
export function angleDimension(
  _centre: Point,
  _radius: number,
  _from: number,
  _to: number,
  _words: string,
  _size = 3.5,
): Mark[] {
  throw new Error("being written");
}

/** A leader with an arrow at `tip`, a knee at `knee`, and words that stand on a short shelf running away from the tip. */
export function leader(_tip: Point, _knee: Point, _words: string, _size = 3.5): Mark[] {
  throw new Error("being written");
}
