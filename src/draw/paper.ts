import type { Rect } from "./types.ts";

export interface Paper {
  readonly name: string;
  readonly width: number;
  readonly height: number;
}

/** ISO 216, 210 × 297, upright. */
export const A4: Paper = { name: "A4", width: 210, height: 297 };

/** ANSI/ASME Y14.1 size A, 8 1/2 × 11 in, upright. */
export const LETTER: Paper = { name: "Letter", width: 215.9, height: 279.4 };

/** No common office printer prints nearer to the edge of the paper than this (common practice, no source). */
export const SAFE_MARGIN = 10;

/** The same paper lying on its long side. */
export const landscape = (paper: Paper): Paper => ({
  name: paper.name,
  width: Math.max(paper.width, paper.height),
  height: Math.min(paper.width, paper.height),
});

/** The part of the paper that every printer reaches. */
export const printable = (paper: Paper, margin = SAFE_MARGIN): Rect => ({
  x: margin,
  y: margin,
  width: paper.width - 2 * margin,
  height: paper.height - 2 * margin,
});
