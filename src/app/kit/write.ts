import { type ShopWriter, shopWriterFor } from "../../core/units/index.ts";

/** How the shop reads numbers, and in which unit. */
export interface Write extends ShopWriter {
  readonly unit: "mm" | "in";
}

export function writeIn(show: { readonly length: "mm" | "in"; readonly fraction: number }): Write {
  return { ...shopWriterFor(show), unit: show.length };
}

/** A figure and its unit, to be set in two sizes: "12 5/16 in" → "12 5/16" and "in"; "61.4°" stays whole. */
export function split(figure: string): { readonly number: string; readonly unit: string } {
  const found = /^(.*\S) (mm|in)$/.exec(figure);
  const [, number = figure, unit = ""] = found ?? [];
  return { number, unit };
}
