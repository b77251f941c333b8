import { describe, expect, it } from "vitest";
import { IDS, say } from "../../words/index.ts";
import { formatAngle, formatLength } from "./format.ts";
import { DECIMAL_INCHES, parseLength, writerFor } from "./index.ts";

const inch = (mm: number, fraction = 16, feet = false) => formatLength(mm, { unit: "in", fraction, feet });
const metric = (mm: number, decimals?: number) =>
  formatLength(mm, { unit: "mm", fraction: 16, ...(decimals === undefined ? {} : { decimals }) });

describe("inches", () => {
  it.each([
    [312.7375, 16, "12 5/16 in"],
    [25.4, 16, "1 in"],
    [12.7, 16, "1/2 in"],
    [-12.7, 16, "-1/2 in"],
    [-317.5, 16, "-12 1/2 in"],
    [0, 16, "0 in"],
    [-0, 16, "0 in"],
    [-0.01, 16, "0 in"],
    [25.39, 16, "1 in"],
    // a decimal equivalent of the printed tables: 3/64 in = .046875 in
    [0.046875 * 25.4, 64, "3/64 in"],
    // ties to even: 1/32 to 0/16, 3/32 to 2/16, 5/32 to 2/16
    [0.79375, 16, "0 + in"],
    [2.38125, 16, "1/8 − in"],
    [3.96875, 16, "1/8 + in"],
    [-3.96875, 16, "-1/8 + in"],
    [0.79376, 16, "1/16 − in"],
    // NIST LC 1137: 36 in is 91.44 cm; 40.1 in is 101.854 cm
    [914.4, 16, "36 in"],
    [1018.54, 10, "40 1/10 in"],
    [1e21, 1, "39370078740157480315 − in"],
  ])("%d mm to 1/%d is %s", (mm, fraction, text) => expect(inch(mm, fraction)).toBe(text));

  it("goes over to feet where asked", () => {
    expect(inch(393.7, 16, true)).toBe("1 ft 3 1/2 in");
    expect(inch(304.8, 16, true)).toBe("1 ft 0 in");
    expect(inch(-317.5, 16, true)).toBe("-1 ft 0 1/2 in");
    expect(inch(304.7, 16, true)).toBe("1 ft 0 − in");
    expect(inch(279.4, 16, true)).toBe("11 in");
  });
});

describe("which way a fraction was rounded", () => {
  it.each([
    // 76 7/8 in is 1952.625 mm, 76.875 in the printed tables of decimal equivalents
    [1952.625, 16, "76 7/8 in"],
    [1952.3, 16, "76 7/8 − in"],
    [1953.0, 16, "76 7/8 + in"],
    // half a thousandth of an inch is 0.0127 mm: less is exact, so much is not
    [1952.625 + 0.01269, 16, "76 7/8 in"],
    [1952.625 - 0.01269, 16, "76 7/8 in"],
    [1952.625 + 0.0127, 16, "76 7/8 + in"],
    [1952.625 - 0.0127, 16, "76 7/8 − in"],
    [1952.3, 8, "76 7/8 − in"],
    [1952.3, 64, "76 55/64 + in"],
    // 100 mm is 3.93701 in, and 3 15/16 in is 3.9375: 0.0005 in at most
    [100, 32, "3 15/16 in"],
    [99.9, 32, "3 15/16 − in"],
    [-99.9, 32, "-3 15/16 − in"],
    [1.5, 16, "1/16 − in"],
    [-0.3, 16, "0 + in"],
  ])("%d mm to 1/%d is %s", (mm, fraction, text) => {
    expect(inch(mm, fraction)).toBe(text);
    const back = parseLength(text);
    expect(back.ok && Math.abs(back.mm - mm)).toBeLessThan(25.4 / fraction / 2 + 1e-9);
  });

  it("decimal inches, in thousandths, carry none: they are exact to half a thousandth", () => {
    expect(inch(1952.3, DECIMAL_INCHES)).toBe("76.862 in");
    expect(inch(25.4, DECIMAL_INCHES)).toBe("1.000 in");
    expect(inch(-0.001, DECIMAL_INCHES)).toBe("0.000 in");
  });

  it("agrees with plain arithmetic, over all sixty-fourths of an inch and between", () => {
    for (const fraction of [8, 16, 32, 64])
      for (let i = 0; i < 4000; i++) {
        const size = (i * 7.919) / 1000 + 40;
        const text = inch(size * 25.4, fraction);
        const parts = /^(\d+)(?: (\d+)\/(\d+))?(?: ([−+]))? in$/.exec(text)!;
        const printed = Number(parts[1]) + (parts[2] ? Number(parts[2]) / Number(parts[3]) : 0);
        const off = size - printed;
        if (Math.abs(Math.abs(off) - 0.0005) < 1e-9) continue;
        expect([text, parts[4]]).toEqual([text, Math.abs(off) < 0.0005 ? undefined : off < 0 ? "−" : "+"]);
      }
  });
});

describe("millimetres and angles", () => {
  it.each([
    [312.5, undefined, "312.5 mm"],
    [312.25, 1, "312.2 mm"],
    [312.35, 1, "312.4 mm"],
    [2.675, 2, "2.68 mm"],
    [0.5, 0, "0 mm"],
    [1.5, 0, "2 mm"],
    [-0.04, 1, "0.0 mm"],
    [-0.06, 1, "-0.1 mm"],
    [0.05, 2, "0.05 mm"],
    [1e-7, 3, "0.000 mm"],
    [999.96, 1, "1000.0 mm"],
  ])("%d to %s decimals is %s", (mm, decimals, text) => expect(metric(mm, decimals)).toBe(text));

  it("writes angles", () => {
    expect(formatAngle(35, 1)).toBe("35.0°");
    expect(formatAngle(-0.0001, 2)).toBe("0.00°");
    expect(formatAngle(-180, 0)).toBe("-180°");
  });

  it("stops loudly on what is no number", () => {
    expect(() => metric(Number.NaN)).toThrow(RangeError);
    expect(() => inch(Number.POSITIVE_INFINITY)).toThrow(RangeError);
    expect(() => formatAngle(1, 0.5)).toThrow(RangeError);
    expect(() => metric(1, 10)).toThrow(RangeError);
    expect(() => inch(1, 0)).toThrow(RangeError);
  });
});

describe("the writer for findings", () => {
  it("puts a finding's values in the reader's units", () => {
    const finding = {
      code: "straight-short",
      place: "bars.a",
      values: { leg: { count: 2 }, missing: { mm: 12.7 } },
    } as const;
    expect(say(finding, writerFor({ length: "in", fraction: 16 }), IDS)).toContain("need 1/2 in more");
    expect(say(finding, writerFor({ length: "mm", fraction: 16 }), IDS)).toContain("need 12.7 mm more");
    expect(writerFor({ length: "mm", fraction: 16 }, { mm: 0, angle: 2 }).angle(3)).toBe("3.00°");
    expect(writerFor({ length: "mm", fraction: 16 }, { mm: 0 }).length(3.2)).toBe("3 mm");
  });
});

it("inches with decimals, where a fraction is too coarse: exact, ties to even, no minus nought", () => {
  const style = { unit: "in", fraction: 16, inchDecimals: 3 } as const;
  expect(formatLength(25.4, style)).toBe("1.000 in");
  expect(formatLength(1.11, style)).toBe("0.044 in");
  expect(formatLength(40, style)).toBe("1.575 in");
  // 0.0127 mm is 0.0005 in, a tie: to the even neighbour
  expect(formatLength(0.0127, style)).toBe("0.000 in");
  expect(formatLength(-0.0381, style)).toBe("-0.002 in");
  expect(formatLength(-0.001, style)).toBe("0.000 in");
});
