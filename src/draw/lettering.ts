import { WIDTH_RANGES } from "./widths.ts";

/** Units of the em in DejaVu Sans. */
const EM = 2048;

/** Height of the capitals over the em in DejaVu Sans (the glyph H, 1493 of 2048). */
export const CAP_PER_EM = 1493 / EM;

/** Width of the empty box that stands for a character that the table (or the font) lacks. */
const MISSING = 1229;

const tableOf = (weight: "regular" | "bold"): ReadonlyMap<number, number> =>
  new Map(
    WIDTH_RANGES.flatMap((range) =>
      range[weight]
        .trim()
        .split(/\s+/)
        .map((units, i) => [range.first + i, Number(units)] as const)
        .filter(([, units]) => units > 0),
    ),
  );

const REGULAR = tableOf("regular");
const BOLD = tableOf("bold");

/** Width of one character in 1/2048 em, or undefined if the table lacks it. */
export const advance = (codePoint: number, bold = false): number | undefined =>
  (bold ? BOLD : REGULAR).get(codePoint);

/**
 * Width of one line of words in DejaVu Sans, mm; `size`: height of the capitals, mm.
 * Exact for the characters of the table (Latin, Greek, Cyrillic, figures, common signs), without kerning.
 */
export function textWidth(words: string, size: number, bold = false): number {
  let units = 0;
  for (const char of oneLine(words)) {
    const code = char.codePointAt(0);
    if (code !== undefined) units += advance(code, bold) ?? MISSING;
  }
  return (units / EM) * (size / CAP_PER_EM);
}

/**
 * The words as every format can carry them: control characters and broken surrogates, which would spoil a file, become
 * spaces; characters that only steer layout (soft hyphen, direction marks) go.
 */
export const oneLine = (words: string): string =>
  words.replace(/\p{Cf}/gu, "").replace(/\p{Cc}|\p{Cs}|[\u2028\u2029]/gu, " ");
