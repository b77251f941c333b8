import { describe, expect, it } from "vitest";
import { unitSlip } from "./slip.ts";

describe("a slip of unit", () => {
  it.each([
    [128.8, 1288, "typed in cm", 1288],
    [50.7, 1288, "typed in inches", 1287.78],
    [12880, 1288, "in mm, typed as cm", 1288],
    [32715, 1288, "in mm, typed as inches", 1287.992],
  ])("%d where %d is expected", (read, expected, says, meant) => {
    const slip = unitSlip(read, expected, 5)!;
    expect(slip.says).toBe(says);
    expect(slip.meant).toBeCloseTo(meant, 3);
  });

  it.each([[1288], [1248], [0], [640], [2576], [120]])("%d is none", (read) => {
    expect(unitSlip(read, 1288, 5)).toBeUndefined();
  });

  it("is told up to 3 % and the slack, not beyond", () => {
    expect(unitSlip(124.5, 1288, 5)).toBeDefined();
    expect(unitSlip(124.3, 1288, 5)).toBeUndefined();
  });
});
