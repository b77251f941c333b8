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
 */
export function enteredLength(text: string, unit: "mm" | "in", negative = false): Entered {
  const trimmed = text.trim();
  if (trimmed === "") return { ok: false, why: KEYPAD.noLength };
  const whole = unit === "in" && !NAMES_A_UNIT.test(trimmed) ? `${trimmed} in` : trimmed;
  const read = parseLength(whole);
  if (!read.ok) return { ok: false, why: sayLength(read.why) };
  if (negative && read.mm < 0) return { ok: false, why: KEYPAD.noSign };
  const mm = (negative ? -read.mm : read.mm) + 0;
  const plain = !NAMES_A_UNIT.test(trimmed) && unit === "mm";
  if (plain) return { ok: true, value: mm, mm };
  return { ok: true, value: negative ? `-${whole}` : whole, mm };
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
