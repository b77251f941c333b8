import { parseLength } from "../../core/units/index.ts";
import { sayLength } from "../../words/index.ts";
import type { Json } from "../model/document/index.ts";

/** A length as a person typed it: what the document keeps, and what it comes to (mm). */
export type Typed =
  | { readonly ok: true; readonly value: number | string; readonly mm: number }
  | { readonly ok: false; readonly why: string };

/** Letters or marks that name a unit; a fraction names inches by itself. */
const NAMES_A_UNIT = /[a-z'"′″/]/i;

/**
 * Reads what was typed into the keypad. Where no unit is named it is the job's own (`unit`); a plain number of
 * millimetres is kept as a number, everything else as it was typed, its unit beside it. `negative` is for a length
 * that is said with a side ("596 right"): the size is typed, the side chosen.
 */
export function typedLength(text: string, unit: "mm" | "in", negative = false): Typed {
  const said = text.trim();
  if (said === "") return { ok: false, why: "type a length" };
  const whole = unit === "in" && !NAMES_A_UNIT.test(said) ? `${said} in` : said;
  const read = parseLength(whole);
  if (!read.ok) return { ok: false, why: sayLength(read.why) };
  if (negative && read.mm < 0)
    return { ok: false, why: "the side is chosen above: type the length without a sign" };
  const mm = (negative ? -read.mm : read.mm) + 0;
  const plain = !NAMES_A_UNIT.test(said) && unit === "mm";
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
  const said = value.trim();
  return said.startsWith("-")
    ? { text: said.slice(1).trim(), negative: true }
    : { text: said, negative: false };
}

/** What a kept length comes to (mm); undefined where it is none. */
export function mmOf(value: Json | undefined): number | undefined {
  if (typeof value === "number") return value;
  if (typeof value !== "string") return undefined;
  const read = parseLength(value);
  return read.ok ? read.mm : undefined;
}

/** Degrees as typed: a plain number within bounds. */
export function typedDegrees(text: string, least: number, most: number): Typed {
  const said = text.trim().replace(/°$/, "").trim().replace(",", ".");
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(said))
    return { ok: false, why: "type an angle in degrees, such as 78.5" };
  const value = Number(said) + 0;
  if (value < least || value > most) return { ok: false, why: `between ${least}° and ${most}°` };
  return { ok: true, value, mm: value };
}
