import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sayLength } from "../../words/index.ts";
import { formatLength } from "./format.ts";
import { parseLength } from "./index.ts";

const read = (text: string, assumed?: "mm" | "in"): number => {
  const result = parseLength(text, assumed);
  if (!result.ok) throw new Error(sayLength(result.why));
  return result.mm;
};
const why = (text: string, assumed?: "mm" | "in"): string => {
  const result = parseLength(text, assumed);
  return result.ok ? `read as ${result.mm}` : sayLength(result.why);
};

describe("notations of the shop", () => {
  it.each([
    ['12 5/16"', 312.7375],
    ["12-5/16", 312.7375],
    ["12-5/16 in", 312.7375],
    ["12- 5/16 in", 312.7375],
    ["12 5/16 inches", 312.7375],
    ["  12   5 / 16  IN.", 312.7375],
    ["12.3125in", 312.7375],
    ['12½"', 317.5],
    ["12 ½", 317.5],
    ["12-½ in", 317.5],
    ["⅞", 22.225],
    ["3⁄8 in", 9.525],
    ["3/8", 9.525],
    ["37/16 in", 58.7375],
    [".375 in", 9.525],
    [",5 in", 12.7],
    ["5. in", 127],
    [`1' 3-1/2"`, 393.7],
    [`1'3 1/2"`, 393.7],
    [`1'-3 1/2"`, 393.7],
    [`1' - 3 1/2"`, 393.7],
    ["1′ 3½″", 393.7],
    ["1’ 3½”", 393.7],
    ["1' 3''", 381],
    ["1 ft 3 in", 381],
    ["1ft. 3in.", 381],
    ["1 foot", 304.8],
    ["2 Feet", 609.6],
    ["5'10", 1778],
    ["1' 5/16", 312.7375],
    ["1.5 ft", 457.2],
    ["1/2 ft", 152.4],
    ["1 1/2 ft", 457.2],
    ["312.5 mm", 312.5],
    ["312,5 mm", 312.5],
    ["0,375 mm", 0.375],
    ["312.5MM", 312.5],
    ["31.25 cm", 312.5],
    ["2 m", 2000],
    ["2,5 metres", 2500],
    ["10 millimeters", 10],
    ['-1/8"', -3.175],
    ['- 1/8"', -3.175],
    ["−12 5/16 in", -312.7375],
    [`-1' 3"`, -381],
    ["+4 mm", 4],
    ["312.5", 312.5],
    ["0", 0],
    ["12\u00a05/16\u202fin", 312.7375],
  ])("%s is %d mm", (text, mm) => expect(read(text)).toBe(mm));

  it("takes a bare number for what is assumed, and nothing else", () => {
    expect(read("10")).toBe(10);
    expect(read("10", "in")).toBe(254);
    expect(read("10 mm", "in")).toBe(10);
    expect(read("1/2", "mm")).toBe(12.7);
    expect(Object.is(read("-0"), 0)).toBe(true);
  });
});

describe("refusals", () => {
  it.each([
    ["", '"": a length is missing'],
    ["  ", '"  ": a length is missing'],
    ["12-5/16-3", '"12-5/16-3": a second "-3" after the fraction'],
    ["12 5/16 1/2", '"12 5/16 1/2": "1/2" after the length'],
    ["12 5/16/2", '"12 5/16/2": "/2" after the length'],
    ["1,234.5 mm", '"1,234.5 mm": thousands are not set apart; write 1234.5'],
    ["1.234,5 mm", '"1.234,5 mm": thousands are not set apart; write 1234.5'],
    ["1,234,567", '"1,234,567": thousands are not set apart; write 1234567'],
    ["1,234 mm", '"1,234 mm": the comma may part thousands or be a decimal comma; write 1234 or 1.234'],
    ["1 234.5 mm", '"1 234.5 mm": "234.5 mm" after the length'],
    ["1'234", `"1'234": 234 inches after feet; 12 inches make another foot`],
    ["5/0", '"5/0": the fraction 5/0 is over zero'],
    ["12 5/0 in", '"12 5/0 in": the fraction 5/0 is over zero'],
    ["12 17/16 in", '"12 17/16 in": 17/16 after 12 is 1 or more'],
    ["12.5 5/16", '"12.5 5/16": a fraction after the decimal 12.5'],
    ["12.5/16", '"12.5/16": a decimal in the fraction 12.5/16'],
    ["5/16.5", '"5/16.5": a decimal in the fraction 5/16.5'],
    ["12 -5/16", '"12 -5/16": "-5/16" after 12 looks like a sum; write a mixed number as 12-5/16'],
    ["12 + 5/16", '"12 + 5/16": "+ 5/16" after 12 looks like a sum; write a mixed number as 12-5/16'],
    ["1' -3\"", `'1' -3"': "-3"" after the feet looks like a sum; write 1'-3"`],
    ["1' 3 mm", `"1' 3 mm": 3 mm after feet; only inches may follow`],
    ["1.5' 3 in", `"1.5' 3 in": inches after 1.5 feet; whole feet only`],
    ["1' in", `"1' in": "in" after the feet`],
    ["3 in 1 ft", '"3 in 1 ft": "1 ft" after the length'],
    ["12 mm 3 in", '"12 mm 3 in": "3 in" after the length'],
    ["12 mm high", '"12 mm high": "high" is no unit; use mm, cm, m, in or ft'],
    ["1/2 mm", '"1/2 mm": a fraction of mm; fractions are for inches, write a decimal'],
    ["12 thou", '"12 thou": "thou" is no unit; use mm, cm, m, in or ft'],
    ["1e3", '"1e3": "e" is no unit; use mm, cm, m, in or ft'],
    ["12 µm", '"12 µm": "µm" is not understood'],
    ["(12)", '"(12)": "(12)" is not understood'],
    ["12,", '"12,": "," is not understood'],
    ["--5", '"--5": a number is missing before "-5"'],
    ["-", '"-": a number is missing'],
    ["/8", '"/8": a number is missing before "/8"'],
    ["5/", '"5/": a number is missing'],
    ["mm", '"mm": a number is missing before "mm"'],
    ["NaN", '"NaN": not a number that can be measured'],
    ["-Infinity", '"-Infinity": not a number that can be measured'],
    ["12\n13", '"12 13": "13" after the length'],
    ["9".repeat(500), `"${"9".repeat(59)}…": 500 characters are no length`],
  ])("%s", (text, sentence) => expect(why(text)).toBe(sentence));

  it("answers any text, on one line", () => {
    const alphabet = fc.constantFrom(..."0123456789./,-+'\" \n\tmincft½″′xe∞");
    const anyText = fc.oneof(
      fc.string(),
      fc.array(alphabet, { maxLength: 14 }).map((c) => c.join("")),
    );
    fc.assert(
      fc.property(anyText, (text) => {
        const result = parseLength(text);
        if (result.ok) expect(Number.isFinite(result.mm)).toBe(true);
        else expect(sayLength(result.why)).toMatch(/^.+: .+$/u);
      }),
      { seed: 11, numRuns: 20_000 },
    );
  });
});

describe("exactness", () => {
  // NIST SP 811 (2008), appendix B.8: inch 2.54 E+01 mm, foot 3.048 E-01 m, both in bold (exact)
  it("has the exact inch and foot", () => {
    expect(read("1 in")).toBe(25.4);
    expect(read("1 ft")).toBe(304.8);
    expect(read("10000 in")).toBe(254000);
  });

  it("rounds once: every 64th up to 100 in is the double nearest to n·25.4/64", () => {
    for (let n = 1; n <= 6400; n++) {
      const [whole, over] = [Math.floor(n / 64), n % 64];
      const text = `${whole} ${over}/64 in`;
      // 254·n / 640: one correctly rounded division of two exact integers (IEEE 754)
      expect(read(text)).toBe((254 * n) / 640);
    }
  });

  it("reads a decimal as the language does", () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.integer({ min: 0, max: 9 }), (digits, places) => {
        const text = (digits < 0 ? "-" : "") + decimalText(Math.abs(digits), places);
        expect(read(`${text} mm`)).toBe(Number(text) + 0);
      }),
      { seed: 12, numRuns: 2000 },
    );
  });
});

function decimalText(digits: number, places: number): string {
  const padded = String(digits).padStart(places + 1, "0");
  return places === 0 ? padded : `${padded.slice(0, -places)}.${padded.slice(-places)}`;
}

describe("reading back what was written", () => {
  const micron = fc.integer({ min: -5_000_000, max: 5_000_000 }).map((i) => i / 1000);

  it("gives the millimetres to the decimals chosen, and the same text again", () => {
    fc.assert(
      fc.property(micron, fc.integer({ min: 0, max: 4 }), (mm, decimals) => {
        const text = formatLength(mm, { unit: "mm", fraction: 16, decimals });
        expect(Math.abs(read(text) - mm)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-9);
        expect(formatLength(read(text), { unit: "mm", fraction: 16, decimals })).toBe(text);
      }),
      { seed: 13, numRuns: 2000 },
    );
  });

  it("gives the inches to half the fraction chosen, and the same text again, now exact", () => {
    fc.assert(
      fc.property(micron, fc.constantFrom(2, 4, 8, 16, 32, 64, 10), fc.boolean(), (mm, fraction, feet) => {
        const style = { unit: "in", fraction, feet } as const;
        const text = formatLength(mm, style);
        expect(Math.abs(read(text) - mm)).toBeLessThanOrEqual(12.7 / fraction + 1e-9);
        expect(formatLength(read(text), style)).toBe(
          text.replace(/^-(0 [−+])/, "$1").replace(/ [−+] in$/, " in"),
        );
      }),
      { seed: 14, numRuns: 3000 },
    );
  });

  it("takes the mark of rounding in its one place and nowhere else", () => {
    expect(read("76 7/8 − in")).toBe(76.875 * 25.4);
    expect(read("1 ft 3 1/2 + in")).toBe(15.5 * 25.4);
    for (const text of ["76 7/8 −", "76 − mm", "76 7/8− in", "5 - 3 in", "− in"])
      expect(parseLength(text)).toMatchObject({ ok: false });
  });

  it("gives back every fraction exactly", () => {
    fc.assert(
      fc.property(fc.integer({ min: -40_000, max: 40_000 }), fc.constantFrom(2, 8, 16, 64), (n, fraction) => {
        const mm = (254 * n) / (10 * fraction) + 0;
        expect(read(formatLength(mm, { unit: "in", fraction }))).toBe(mm);
      }),
      { seed: 15, numRuns: 2000 },
    );
  });
});
