import { type Repeated, repeated } from "../../core/estimate/index.ts";
import { mmOf } from "../kit/index.ts";
import type { Json } from "../model/document/index.ts";

/** As many readings of one thing as give an error. */
export const READINGS = 10;

/** The finest that readings as typed show: the place of the last digit (mm or degrees), a sixteenth of an inch for fractions. */
export function divisionOf(typed: readonly Json[]): number {
  const steps = typed.map((value) => {
    if (typeof value === "number") return 10 ** -decimals(String(value));
    const fraction = /\/\s*(\d+)/.exec(String(value));
    if (fraction) return 25.4 / Number(fraction[1]);
    const figure = /[\d.]+/.exec(String(value))?.[0] ?? "0";
    return 10 ** -decimals(figure) * (/in|"|″/.test(String(value)) ? 25.4 : 1);
  });
  return Math.min(...steps);
}

const decimals = (figure: string): number => figure.split(".")[1]?.length ?? 0;

/** What readings as typed say; lengths in mm, angles in degrees. Undefined until all are there. */
export function scatterOf(typed: readonly Json[]): Repeated | undefined {
  if (typed.length < READINGS) return undefined;
  const values = typed.map((value) => mmOf(value));
  const read = values.flatMap((v) => (v === undefined ? [] : [v]));
  return read.length === values.length ? repeated(read, divisionOf(typed)) : undefined;
}

/** An error as it is kept: to two figures, never below a hundredth. */
export const keptError = (sd: number): number => Math.max(0.01, Number(sd.toPrecision(2)));
