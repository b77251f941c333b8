import type { Writer } from "../../core/findings/index.ts";
import { formatLength, writerFor } from "../../core/units/index.ts";

/** How the shop reads numbers: a Writer, and finer ones for gaps and diameters. */
export interface Write extends Writer {
  /** Gaps, offsets, walls: hundredths of a millimetre, thousandths of an inch. */
  readonly fine: (mm: number) => string;
  /** Diameters: tenths of a millimetre, thousandths of an inch. */
  readonly size: (mm: number) => string;
  readonly unit: "mm" | "in";
}

export function writeIn(show: { readonly length: "mm" | "in"; readonly fraction: number }): Write {
  const finer = (decimals: number) => (mm: number) =>
    formatLength(mm, { unit: show.length, fraction: show.fraction, decimals, inchDecimals: 3 });
  return { ...writerFor(show), fine: finer(2), size: finer(1), unit: show.length };
}

/** A figure and its unit, to be set in two sizes: "12 5/16 in" → "12 5/16" and "in"; "61.4°" stays whole. */
export function split(figure: string): { readonly number: string; readonly unit: string } {
  const found = /^(.*\S) (mm|in)$/.exec(figure);
  return found ? { number: found[1]!, unit: found[2]! } : { number: figure, unit: "" };
}
