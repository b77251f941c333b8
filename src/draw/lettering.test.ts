import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import PDFDocument from "pdfkit";
import { describe, expect, test } from "vitest";
import { advance, CAP_PER_EM, textWidth } from "./lettering.ts";
import { WIDTH_RANGES } from "./widths.ts";

/** Never drawn: taken out before lettering. */
const SOFT_HYPHEN = 0xad;

const file = (name: string): Buffer =>
  readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${name}`));

/** Widths as the font itself gives them, in 1/2048 em, through pdfkit's reader of fonts. */
function fromFont(name: string): (words: string) => number {
  const pdf = new PDFDocument({ autoFirstPage: false });
  pdf.font(file(name)).fontSize(2048);
  const features = { kern: false, liga: false } as unknown as PDFKit.Mixins.OpenTypeFeatures[];
  return (words) => pdf.widthOfString(words, { features });
}

describe.each([
  ["DejaVuSans.ttf", false],
  ["DejaVuSans-Bold.ttf", true],
] as const)("%s", (name, bold) => {
  const font = fromFont(name);

  test("every width of the table is the font's", () => {
    let count = 0;
    for (const { first, regular, bold: heavy } of WIDTH_RANGES)
      for (let code = first; code < first + (bold ? heavy : regular).trim().split(/\s+/).length; code++) {
        const width = advance(code, bold);
        if (width === undefined || code === SOFT_HYPHEN) continue;
        expect(Math.abs(font(String.fromCodePoint(code)) - width), `U+${code.toString(16)}`).toBeLessThan(
          1e-6,
        );
        count++;
      }
    expect(count).toBeGreaterThan(600);
  });

  test("a whole line is as wide as the font sets it, kerning pairs and ligatures left alone", () => {
    for (const words of [
      "AVATAR To fit",
      "office",
      "Ø44.5 × 2.5 — 90° 12-5/16″ ½ → ① Größe ČŽ Ж ± ≤",
      "4 in",
    ])
      expect(textWidth(words, 1493, bold)).toBeCloseTo(font(words), 6);
  });

  test("figures all have one width", () => {
    expect(new Set([..."0123456789"].map((figure) => advance(figure.codePointAt(0)!, bold))).size).toBe(1);
  });
});

test("what shop cards write is in the table", () => {
  for (const char of "°ØøΔ±×÷½¼¾⅛⅜⅝⅞′″→←↑↓↺↻①⑩≤≥≈∠–—·…•µ√²³☐☑✓⚠")
    expect(advance(char.codePointAt(0)!), char).toBeDefined();
});

test("width grows with the height of the capitals", () => {
  expect(textWidth("bar", 7)).toBeCloseTo(2 * textWidth("bar", 3.5), 12);
  expect(CAP_PER_EM).toBeCloseTo(0.729, 3);
  expect(textWidth("", 3.5)).toBe(0);
  expect(textWidth("soft\u00adhyphen", 3.5)).toBe(textWidth("softhyphen", 3.5));
});
