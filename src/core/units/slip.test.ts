import { describe, expect, it } from "vitest";
import { unitSlip } from "./slip.ts";

describe("a slip of unit", () => {
  it.each([
    [128.8, 1288, "cm", 1288],
    [50.7, 1288, "in", 1287.78],
    [4.22, 1288, "ft", 1286.256],
    [12880, 1288, "mm-as-cm", 1288],
    [32715, 1288, "mm-as-in", 1287.992],
    [107.3, 1288, "ft-as-in", 1287.6],
    [0, 1288, "zero", 1288],
    [-31, -790, "in", -787.4],
  ])("%d where %d is expected", (read, expected, code, meant) => {
    const slip = unitSlip(read, expected, 1)!;
    expect(slip.slip).toBe(code);
    expect(slip.meant).toBeCloseTo(meant, 3);
  });

  it.each([[1288], [1248], [640], [2576], [140], [-128.8]])("%d is none", (read) => {
    expect(unitSlip(read, 1288, 1)).toBeUndefined();
  });

  it("is told up to 3 % or three standard deviations, not beyond", () => {
    expect(unitSlip(125, 1288, 1)).toBeDefined();
    expect(unitSlip(124.5, 1288, 1)).toBeUndefined();
    expect(unitSlip(124.5, 1288, 15)).toBeDefined();
  });

  it("is never told of a reading that is plausible as read, or where next to nothing is expected", () => {
    // 60 off flat expected, ± 10 by the shop's turns: 6 is 5.4 of these away, though ten times 6 is 60
    expect(unitSlip(6, 60, 10)).toBeUndefined();
    expect(unitSlip(6, 60, 1)).toBeDefined();
    for (const expected of [0, 1.5, -20, 49.9])
      for (const read of [0, 0.06, 1.5, -3, 20, 38, 250, 1270])
        expect(unitSlip(read, expected, 0.5), `${read} where ${expected} is expected`).toBeUndefined();
  });
});
