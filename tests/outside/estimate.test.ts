import { describe, expect, it } from "vitest";
import { chiSquareBelow, chiSquareLimit } from "../../src/core/estimate/chisquare.ts";
import { CRITICAL } from "../../src/core/estimate/index.ts";

describe("chi-square", () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, upper critical values.
  const table: readonly (readonly [number, number, number, number])[] = [
    [1, 3.841, 6.635, 10.828],
    [2, 5.991, 9.21, 13.816],
    [3, 7.815, 11.345, 16.266],
    [5, 11.07, 15.086, 20.515],
    [10, 18.307, 23.209, 29.588],
    [30, 43.773, 50.892, 59.703],
    [100, 124.342, 135.807, 149.449],
  ];
  it.each(table)("with %i degrees of freedom is as NIST's table has it", (freedom, ...limits) => {
    [0.95, 0.99, 0.999].forEach((p, i) => {
      // Half a unit of the last printed digit.
      expect(Math.abs(chiSquareLimit(p, freedom) - limits[i]!)).toBeLessThanOrEqual(0.50001e-3);
      expect(chiSquareBelow(chiSquareLimit(p, freedom), freedom)).toBeCloseTo(p, 8);
    });
  });
});

describe("the critical value", () => {
  it("is what one in a thousand lies beyond: the root of NIST's 99.9 % point for one degree of freedom", () => {
    expect(CRITICAL).toBeCloseTo(Math.sqrt(10.828), 2);
  });
});
