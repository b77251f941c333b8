import type { Anchor, Placed, Point } from "../types.ts";

export interface Column {
  readonly title: string;
  /** mm */
  readonly width: number;
  /** start for words, end for figures (start). */
  readonly anchor?: Anchor;
}

/** A ruled table, cells wrapped to their columns; `at` its top left corner; size: height of the capitals, mm. */
export function table(
  _at: Point,
  _columns: readonly Column[],
  _rows: readonly (readonly string[])[],
  _size = 2.5,
): Placed {
  throw new Error("being written");
}
