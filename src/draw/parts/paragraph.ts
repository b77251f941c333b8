import type { Placed, Point } from "../types.ts";

export interface LetteringOptions {
  /** Height of the capitals, mm (2.5). */
  readonly size?: number;
  readonly bold?: boolean;
}

/** The words broken into lines no wider than `width` mm; a word that is wider alone is broken. "\n" starts a new line. */
export function wrap(_words: string, _width: number, _options: LetteringOptions = {}): string[] {
  throw new Error("being written");
}

/** Lines of words in a column; `at` is its top left corner (not a baseline). */
export function paragraph(
  _at: Point,
  _width: number,
  _words: string,
  _options: LetteringOptions = {},
): Placed {
  throw new Error("being written");
}
