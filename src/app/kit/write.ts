import { formatLength, writerFor } from "../../core/units/index.ts";
import type { ShopWriter } from "../../words/index.ts";

/** How the shop reads numbers, and in which unit. */
export interface Write extends ShopWriter {
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
  const [, number = figure, unit = ""] = found ?? [];
  return { number, unit };
}
