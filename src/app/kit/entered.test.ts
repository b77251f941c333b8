import { describe, expect, it } from "vitest";
import { parseLength } from "../../core/units/index.ts";
import { enteredLength, enteredNumber, mmOf, retyped } from "./entered.ts";

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

describe("an angle from the keypad", () => {
  it("is a plain number of degrees within bounds", () => {
    expect(enteredNumber("78.5°", 0, 90)).toMatchObject({ ok: true, value: 78.5 });
    expect(enteredNumber("78,5", 0, 90)).toMatchObject({ ok: true, value: 78.5 });
    expect(enteredNumber("-0", -10, 10)).toMatchObject({ ok: true, value: 0 });
    for (const text of ["", "91", "1e1", "0x10", "NaN", "--3"])
      expect(enteredNumber(text, 0, 90).ok).toBe(false);
  });
});
