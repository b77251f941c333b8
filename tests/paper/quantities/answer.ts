import type { Wanted } from "../figure.ts";
import { halfTurn } from "../second/vec.ts";

export const DEG = 180 / Math.PI;
export const mm = (value: number | undefined, slack?: number): Wanted | undefined =>
  value === undefined ? undefined : { value, ...(slack === undefined ? {} : { slack }) };
export const words = (text: string | undefined): Wanted | undefined =>
  text === undefined ? undefined : { words: text };
export const claim = (is: boolean): Wanted => ({ words: is ? "true" : "false" });
export const list = (values: readonly number[]): Wanted[] => values.map((value) => ({ value }));
export type Answer = Wanted | Wanted[] | undefined;

export const near =
  (value: number, slack: number) =>
  (read: number): boolean =>
    Math.abs(halfTurn(read - value)) <= 0.0005 + slack;

/** What a cut that a search found, told to a thousandth, leaves uncertain in what is figured from it (mm). */
export const FOUND = 0.006;
/** See `edge`. */
export const GRAZING = 0.01;
/** Nearer than this (degrees) a place round the tube is said to be on a line. */
export const ON = 0.05;
