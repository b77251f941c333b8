import { describe, expect, it } from "vitest";
import { parseLength } from "../../core/units/index.ts";
import { enteredLength, enteredNumber, mmOf, retyped, sided } from "./entered.ts";

describe("a length from the keypad", () => {
  it.each([
    ["655", "mm", 655, 655],
    [" 12.5 ", "mm", 12.5, 12.5],
    ["12 5/16", "mm", "12 5/16", 312.7375],
    ["12 5/16", "in", "12 5/16", 312.7375],
    ["12", "in", "12 in", 304.8],
    ["655 mm", "in", "655 mm", 655],
    ["1' 3-1/2\"", "mm", "1' 3-1/2\"", 393.7],
    ["12.25", "in", "12.25 in", 311.15],
  ] as const)("%s in a shop that reads %s is kept as %s", (text, unit, value, mm) => {
    expect(enteredLength(text, unit)).toEqual({ ok: true, value, mm });
  });

  it("is below nothing where its side is", () => {
    expect(enteredLength("596", "mm", true)).toEqual({ ok: true, value: -596, mm: -596 });
    expect(enteredLength("12 5/16 in", "mm", true)).toEqual({
      ok: true,
      value: "-12 5/16 in",
      mm: -312.7375,
    });
    expect(enteredLength("0", "mm", true)).toEqual({ ok: true, value: 0, mm: 0 });
    expect(enteredLength("-5", "mm", true).ok).toBe(false);
  });

  it("comes back as it was entered, and every kept value can be read by the job", () => {
    for (const unit of ["mm", "in"] as const)
      for (const text of ["7", "0.5", "3/8", "12 5/16", "40 mm", "2 ft 1 in", "1.030"])
        for (const negative of [false, true]) {
          const typed = enteredLength(text, unit, negative);
          if (!typed.ok) throw new Error(`${text}: ${typed.why}`);
          const again = retyped(typed.value, unit);
          expect(enteredLength(again.text, unit, again.negative)).toMatchObject({ ok: true, mm: typed.mm });
          const kept = typeof typed.value === "number" ? typed.value : parseLength(typed.value);
          expect(typeof kept === "number" ? kept : kept.ok && kept.mm).toBeCloseTo(typed.mm, 9);
          expect(mmOf(typed.value)).toBeCloseTo(typed.mm, 9);
        }
  });

  it("says in one line what would be right", () => {
    for (const text of ["", "x", "1,030", "5//8", "12 5/0"]) {
      const typed = enteredLength(text, "mm");
      expect(typed.ok).toBe(false);
      expect(typed.ok || typed.why.split("\n").length).toBe(1);
    }
  });
});

describe("a sum from the keypad", () => {
  it.each([
    ["1250 − 22.5", "mm", 1227.5, 1227.5],
    ["1250-22.5", "mm", 1227.5, 1227.5],
    ["0.1 + 0.2", "mm", 0.3, 0.3],
    ["655 + 40 - 2 × 0", "mm", undefined, undefined],
    ["48 1/2 + 3/8 in", "mm", "48.875 in", 1241.425],
    ["48-1/2-3/8", "in", "48.125 in", 1222.375],
    ["48 1/2 + 3/8", "in", "48.875 in", 1241.425],
    ["12 - 5/16", "in", "11.6875 in", 296.8625],
    ['1\' 3" - 1/4"', "mm", "14.75 in", 374.65],
    ["1 ft + 1/3 in", "mm", 313.266667, 313.266667],
    ["1000 mm + 1 in", "mm", 1025.4, 1025.4],
    ["1000 mm + 1 in", "in", 1025.4, 1025.4],
    ["10 + 20 mm", "mm", 30, 30],
    ["1 m - 1 cm", "in", 990, 990],
    ["40 - 100", "mm", -60, -60],
    // the dash of a mixed number is none of a difference
    ["12-5/16", "in", "12-5/16", 312.7375],
    // one of the two may be meant in either unit
    ["12 + 3/8 in", "mm", undefined, undefined],
    ["12 in + 3", "mm", undefined, undefined],
    ["10 mm + 2", "in", undefined, undefined],
    ["1250 -", "mm", undefined, undefined],
    ["+", "mm", undefined, undefined],
    ["12 + x", "mm", undefined, undefined],
  ] as const)("%s in a shop that reads %s is kept as %s", (text, unit, value, mm) => {
    const read = enteredLength(text, unit);
    if (mm === undefined) expect(read.ok).toBe(false);
    else expect(read).toEqual({ ok: true, value, mm });
    // what is kept is a length of a job file
    if (read.ok && typeof read.value === "string") expect(parseLength(read.value)).toEqual({ ok: true, mm });
  });

  it("goes to its side as a single length does", () => {
    expect(enteredLength("600 - 4", "mm", true)).toEqual({ ok: true, value: -596, mm: -596 });
    expect(enteredLength("4 - 600", "mm", true)).toMatchObject({ ok: false });
    expect(enteredLength("12 + 3/8 in", "mm")).toMatchObject({
      ok: false,
      why: expect.stringContaining("unit"),
    });
  });
});

describe("a side typed with its figure", () => {
  const sides = ["left", "right"] as const;
  it.each([
    ["430.0 mm left", "430.0 mm", false],
    ["430 Right", "430", true],
    ["right 16 7/8 in", "16 7/8 in", true],
    ["430", "430", undefined],
    ["430left", "430left", undefined],
  ] as const)("%s", (typed, text, below) => {
    expect(sided(typed, sides)).toEqual({ text, ...(below === undefined ? {} : { below }) });
  });
  it("is read as the page writes it, with words of several kinds", () => {
    expect(sided("1064.0 mm from its end B", ["from its end A", "from its end B"])).toEqual({
      text: "1064.0 mm",
      below: true,
    });
    expect(sided("430 left", undefined)).toEqual({ text: "430 left" });
  });
});

describe("an angle from the keypad", () => {
  it("is a plain number of degrees within bounds", () => {
    expect(enteredNumber("78.5°", 0, 90)).toMatchObject({ ok: true, value: 78.5 });
    expect(enteredNumber("78,5", 0, 90)).toMatchObject({ ok: true, value: 78.5 });
    expect(enteredNumber("-0", -10, 10)).toMatchObject({ ok: true, value: 0 });
    for (const text of ["", "91", "1e1", "0x10", "NaN", "--3"])
      expect(enteredNumber(text, 0, 90).ok).toBe(false);
  });
});
