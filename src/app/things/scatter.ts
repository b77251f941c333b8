import { type Repeated, repeated } from "../../core/estimate/index.ts";
import { mmOf } from "../kit/index.ts";
import type { Json } from "../model/document/index.ts";

/** As many readings of one thing as give an error. */
export const READINGS = 10;

/** The finest that a tape in inches shows where whole inches were typed (mm): a sixteenth. */
const SIXTEENTH = 25.4 / 16;

/** Millimetres to the unit of a reading's last figure. */
const unitOf = (typed: string): number =>
  /in|"|″/.test(typed) ? 25.4 : /ft|'|′/.test(typed) ? 304.8 : /cm/.test(typed) ? 10 : 1;

/**
 * The finest that readings as typed show (mm or degrees): the place of the last digit, or a fraction's part; of whole
 * inches or feet a sixteenth of an inch.
 */
export function divisionOf(typed: readonly Json[]): number {
  const steps = typed.map((value) => {
    if (typeof value === "number") return 10 ** -decimals(String(value));
    const said = String(value);
    const fraction = /\/\s*(\d+)/.exec(said);
    if (fraction) return 25.4 / Number(fraction[1]);
    const places = Math.max(0, ...(said.match(/[\d.,]+/g) ?? []).map((f) => decimals(f.replace(",", "."))));
    const unit = unitOf(said);
    return places === 0 && unit > 10 ? SIXTEENTH : 10 ** -places * unit;
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
