import type { PhraseCode } from "../findings/index.ts";

export type LengthCode = Extract<PhraseCode, `length-${string}`>;

/** Why a text is no length, with pieces of it. */
export interface Refused {
  readonly code: LengthCode;
  readonly values: Readonly<Record<string, string>>;
}

/** The units that a length can carry. `'` and `"` are feet and inches. */
export type Unit = "mm" | "cm" | "m" | "in" | "ft";

/** A piece of a length's text; `gap` says that a blank stands before it, `text` is how it was written. */
export type Token = { readonly text: string; readonly gap: boolean } & (
  | { readonly kind: "number"; readonly decimal: string; readonly whole: boolean }
  | { readonly kind: "unit"; readonly unit: Unit }
  | { readonly kind: "sign" | "slash" }
);

const UNITS: ReadonlyMap<string, Unit> = new Map<string, Unit>([
  ...["mm", "millimetre", "millimetres", "millimeter", "millimeters"].map((w) => [w, "mm"] as const),
  ...["cm", "centimetre", "centimetres", "centimeter", "centimeters"].map((w) => [w, "cm"] as const),
  ...["m", "metre", "metres", "meter", "meters"].map((w) => [w, "m"] as const),
  ...["in", "inch", "inches", '"'].map((w) => [w, "in"] as const),
  ...["ft", "foot", "feet", "'"].map((w) => [w, "ft"] as const),
]);

/** Unicode's vulgar fractions of the inch, as numerator/denominator. */
const VULGAR: Readonly<Record<string, string>> = {
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
  "⅓": "1/3",
  "⅔": "2/3",
  "⅕": "1/5",
  "⅖": "2/5",
  "⅗": "3/5",
  "⅘": "4/5",
  "⅙": "1/6",
  "⅚": "5/6",
};

/** The marks that keyboards, phones and word processors put in place of ' " - / and the blank. */
function plainMarks(text: string): string {
  return text
    .replace(/[½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚]/g, (c) => ` ${VULGAR[c]} `)
    .replace(/[′’‘ʹ´`]/g, "'")
    .replace(/[″“”„ʺ]|''/g, '"')
    .replace(/[−–‐‑‒﹣-]/g, "-")
    .replace(/[⁄∕]/g, "/");
}

const PIECE = /(\s*)(?:(\d+(?:[.,]\d+)*\.?|[.,]\d+)|([a-z]+)(\.?)|(['"])|([-+])|(\/))/iuy;

/** Number text with one decimal mark as a plain decimal, or why it is none. */
function decimal(written: string): { readonly decimal: string } | { readonly why: Refused } {
  const marks = written.match(/[.,]/g) ?? [];
  if (marks.length > 1) {
    const last = Math.max(written.lastIndexOf("."), written.lastIndexOf(","));
    // one kind of mark throughout parts thousands (or is a slip); with two kinds the last one is the decimal mark
    const mixed = new Set(marks).size > 1;
    const plain = mixed
      ? `${written.slice(0, last).replace(/[.,]/g, "")}.${written.slice(last + 1)}`
      : written.replace(/[.,]/g, "");
    return { why: { code: "length-thousands", values: { plain } } };
  }
  if (/^[1-9]\d{0,2},\d{3}$/.test(written)) {
    const [plain, point] = [written.replace(",", ""), written.replace(",", ".")];
    return { why: { code: "length-comma", values: { plain, point } } };
  }
  return { decimal: written.replace(",", ".") };
}

/** The text cut into numbers, units, signs and slashes, or the first thing that is none of them. */
export function tokens(text: string): readonly Token[] | { readonly why: Refused } {
  const plain = plainMarks(text).trim();
  const found: Token[] = [];
  PIECE.lastIndex = 0;
  while (PIECE.lastIndex < plain.length) {
    const from = PIECE.lastIndex;
    const match = PIECE.exec(plain);
    if (!match) return { why: { code: "length-unknown", values: { rest: plain.slice(from).trim() } } };
    const [, blank = "", number, word, dot, mark, sign] = match;
    const gap = blank !== "";
    const written = match[0].trim();
    if (number !== undefined) {
      const read = decimal(number);
      if ("why" in read) return read;
      found.push({ kind: "number", text: written, gap, decimal: read.decimal, whole: /^\d+$/.test(number) });
    } else if (word !== undefined || mark !== undefined) {
      const unit = UNITS.get((word ?? mark ?? "").toLowerCase());
      // `in.` and `ft.` are abbreviations; `mm.` is a slip that leaves no doubt either
      if (unit === undefined) return { why: { code: "length-no-unit", values: { word: `${word}${dot}` } } };
      found.push({ kind: "unit", text: written, gap, unit });
    } else found.push({ kind: sign === undefined ? "slash" : "sign", text: written, gap });
  }
  return found;
}
