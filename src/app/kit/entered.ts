import { parseLength } from "../../core/units/index.ts";
import { KEYPAD, sayLength } from "../../words/index.ts";
import type { Json } from "../model/document/index.ts";

/** A length as a person entered it: what the document keeps, and what it comes to (mm). */
export type Entered =
  | { readonly ok: true; readonly value: number | string; readonly mm: number }
  | { readonly ok: false; readonly why: string };

/** Letters or marks that name a unit; a fraction names inches by itself. */
const NAMES_A_UNIT = /[a-z'"′″/]/i;

/**
 * Reads what was entered by the keypad. Where no unit is named it is the job's own (`unit`); a plain number of
 * millimetres is kept as a number, everything else as it was entered, its unit beside it. `negative` is for a length
 * that is trimmed with a side ("596 right"): the size is typed, the side chosen.
 * Sums and differences ("1250 − 22.5", "48 1/2 + 3/8 in") are kept as what they come to: a job file holds no sum.
 */
export function enteredLength(text: string, unit: "mm" | "in", negative = false): Entered {
  const trimmed = text.trim();
  if (trimmed === "") return { ok: false, why: KEYPAD.noLength };
  const whole = unit === "in" && !NAMES_A_UNIT.test(trimmed) ? `${trimmed} in` : trimmed;
  const read = parseLength(whole);
  if (!read.ok) return summed(trimmed, unit, negative) ?? { ok: false, why: sayLength(read.why) };
  if (negative && read.mm < 0) return { ok: false, why: KEYPAD.noSign };
  const mm = (negative ? -read.mm : read.mm) + 0;
  const plain = !NAMES_A_UNIT.test(trimmed) && unit === "mm";
  if (plain) return { ok: true, value: mm, mm };
  return { ok: true, value: negative ? `-${whole}` : whole, mm };
}

const SIGN = /[-+−–‐‑‒﹣]/g;
const MM = /\d\s*(mm|cm|m|milli|centi|metre|meter)/i;

/** A length of a sum, with its sign. */
interface Term {
  readonly mm: number;
  /** The unit that it names, or that its fraction does. */
  readonly names: "mm" | "in" | undefined;
}

/** A sum or a difference of lengths; undefined where the text is none. */
function summed(text: string, unit: "mm" | "in", negative: boolean): Entered | undefined {
  const terms = termsOf(text, unit);
  if (!terms || terms.length < 2) return undefined;
  // a plain number beside a length in the other unit may be meant in either
  const units = new Set(terms.map(({ names }) => names ?? unit));
  if (units.size > 1 && terms.some(({ names }) => names === undefined))
    return { ok: false, why: KEYPAD.sumUnits };
  const sum = tidy(terms.reduce((all, { mm }) => all + mm, 0));
  if (negative && sum < 0) return { ok: false, why: KEYPAD.noSign };
  const mm = (negative ? -sum : sum) + 0;
  const inches = `${tidy(mm / 25.4)} in`;
  // inches stay inches where the decimal says the very same length
  const isInches = units.size === 1 && units.has("in") && mmOf(inches) === mm;
  return { ok: true, value: isInches ? inches : mm, mm };
}

/** Kept to a millionth of a millimetre, and of an inch: what the sum of two decimals leaves behind is cut off. */
const tidy = (x: number): number => Math.round(x * 1e6) / 1e6 + 0;

/** Each term is as long as it can be read: the dash of 12-5/16 is no difference. */
function termsOf(text: string, unit: "mm" | "in"): readonly Term[] | undefined {
  const ends = [...text.matchAll(SIGN)].map((sign) => sign.index).filter((at) => at > 0);
  for (const end of [text.length, ...ends.reverse()]) {
    const term = termOf(text.slice(0, end), unit);
    if (!term) continue;
    const rest = end === text.length ? [] : termsOf(text.slice(end), unit);
    if (rest) return [term, ...rest];
  }
  return undefined;
}

function termOf(text: string, unit: "mm" | "in"): Term | undefined {
  const read = parseLength(text, unit);
  if (!read.ok) return undefined;
  const names = NAMES_A_UNIT.test(text) ? (MM.test(text) ? "mm" : "in") : undefined;
  return { mm: read.mm, names };
}

/** What was typed without the side that stands behind or before it ("430 left"), and which side that is. */
export function sided(
  text: string,
  sides: readonly [string, string] | undefined,
): { readonly text: string; readonly below?: boolean } {
  const typed = text.trim();
  const small = typed.toLowerCase();
  for (const [i, side] of (sides ?? []).entries()) {
    const word = side.toLowerCase();
    if (small.endsWith(` ${word}`)) return { text: typed.slice(0, -word.length).trim(), below: i === 1 };
    if (small.startsWith(`${word} `)) return { text: typed.slice(word.length).trim(), below: i === 1 };
  }
  return { text };
}

/** A kept length as it is typed again: its size, and whether it was below nothing. */
export function retyped(
  value: Json | undefined,
  unit: "mm" | "in",
): { readonly text: string; readonly negative: boolean } {
  if (typeof value === "number") {
    const size = String(Math.abs(value));
    return { text: unit === "in" ? `${size} mm` : size, negative: value < 0 };
  }
  if (typeof value !== "string") return { text: "", negative: false };
  const trimmed = value.trim();
  return trimmed.startsWith("-")
    ? { text: trimmed.slice(1).trim(), negative: true }
    : { text: trimmed, negative: false };
}

/** What a kept length comes to (mm); undefined where it is none. */
export function mmOf(value: Json | undefined): number | undefined {
  if (typeof value === "number") return value;
  if (typeof value !== "string") return undefined;
  const read = parseLength(value);
  return read.ok ? read.mm : undefined;
}

/** Degrees, or another plain number of a unit, within bounds. */
export function enteredNumber(text: string, least: number, most: number, unit = "°"): Entered {
  const trimmed = text.trim().replace(/°$/, "").trim().replace(",", ".");
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(trimmed)) return { ok: false, why: KEYPAD.noAngle };
  const value = Number(trimmed) + 0;
  if (value < least || value > most) return { ok: false, why: KEYPAD.within(least, most, unit) };
  return { ok: true, value, mm: value };
}
