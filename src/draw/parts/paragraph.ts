import { text } from "../build.ts";
import { textWidth } from "../lettering.ts";
import type { Placed, Point } from "../types.ts";

export interface LetteringOptions {
  /** Height of the capitals, mm (2.5). */
  readonly size?: number;
  readonly bold?: boolean;
}

/** From line to line, and from the top of a column to its first baseline, in heights of the capitals. */
export const PITCH = 1.7;
export const FIRST = 1.3;

/**
 * The words broken into lines no wider than `width` mm. Broken at plain spaces only (12-5/16″ stays whole; a
 * no-break space holds); a word wider than the line by itself is broken where it must. "\n" starts a new line.
 */
export function wrap(words: string, width: number, options: LetteringOptions = {}): string[] {
  const { size = 2.5, bold = false } = options;
  const fits = (run: string): boolean => textWidth(run, size, bold) <= width + 1e-9;
  return words.split("\n").flatMap((paragraph) => {
    const lines: string[] = [];
    let run = "";
    for (const word of paragraph.split(" ").filter((part) => part !== "")) {
      if (run !== "" && fits(`${run} ${word}`)) {
        run += ` ${word}`;
        continue;
      }
      if (run !== "") lines.push(run);
      run = "";
      for (const char of word) {
        if (run !== "" && !fits(run + char)) {
          lines.push(run);
          run = "";
        }
        run += char;
      }
    }
    return [...lines, run];
  });
}

/** Lines of words in a column `width` mm wide; `at` is its top left corner (not a baseline). */
export function paragraph(at: Point, width: number, words: string, options: LetteringOptions = {}): Placed {
  const { size = 2.5, bold = false } = options;
  const lines = wrap(words, width, options);
  return {
    marks: lines.map((run, i) => text([at[0], at[1] + (FIRST + i * PITCH) * size], run, size, { bold })),
    height: lines.length * PITCH * size,
  };
}
