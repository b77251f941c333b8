import { describe, expect, it } from "vitest";
import { divisionOf, keptError, READINGS, scatterOf } from "./scatter.ts";

describe("ten readings of one thing", () => {
  it("nothing before the tenth; then their scatter, whatever the unit they were typed in", () => {
    const mm = [600.5, 601, 600, 600.5, 601.5, 600, 600.5, 601, 599.5, 600.5];
    expect(scatterOf(mm.slice(1))).toBeUndefined();
    expect(mm).toHaveLength(READINGS);
    const sd = Math.sqrt(3 / 9);
    expect(scatterOf(mm)?.sd).toBeCloseTo(sd, 12);
    const inches = ["23 1/2 in", "23 9/16 in", ...Array.from({ length: 8 }, () => "23 1/2 in")];
    // one of ten a sixteenth off: 1.5875·√(0.1)
    expect(scatterOf(inches)?.sd).toBeCloseTo(1.5875 * Math.sqrt(0.1), 9);
  });

  it("the division is that of the finest figure typed", () => {
    expect(divisionOf([600, 601])).toBe(1);
    expect(divisionOf([600, 600.5])).toBeCloseTo(0.1, 12);
    expect(divisionOf(["23 5/8 in", "23 9/16 in"])).toBeCloseTo(25.4 / 16, 12);
    expect(divisionOf(["23.625 in"])).toBeCloseTo(0.0254, 12);
    // nobody reads a tape to whole inches or feet
    expect(divisionOf(["24 in"])).toBeCloseTo(25.4 / 16, 12);
    expect(divisionOf(["2 ft"])).toBeCloseTo(25.4 / 16, 12);
    expect(divisionOf(["12,5 in"])).toBeCloseTo(2.54, 12);
    expect(divisionOf(["5' 6.5\""])).toBeCloseTo(2.54, 12);
    expect(divisionOf(["12.5 cm"])).toBeCloseTo(1, 12);
  });

  it("ten alike give what the scale can hide, and never nothing", () => {
    const alike = scatterOf(Array.from({ length: 10 }, () => 600));
    expect(alike).toMatchObject({ sd: 1 / Math.sqrt(12), isScale: true });
    expect(keptError(0.2886)).toBe(0.29);
    expect(keptError(0.0003)).toBe(0.01);
  });
});
