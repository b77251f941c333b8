import { describe, expect, it } from "vitest";
import { normal, seeded } from "../numeric/index.ts";
import { adjusted } from "./adjustment.ts";
import { checkedByPriors, standardised, suspectAmong } from "./residuals.ts";

const rows = [
  [1, 0],
  [0, 1],
  [1, 1],
  [1, -1],
];
const sd = [1, 2, 1, 0.5];
const adjust = (readings: readonly number[], prior?: { at: number; sd: number }[]) =>
  adjusted(
    {
      residuals: ([a = 0, b = 0]) => rows.map((row, i) => row[0]! * a + row[1]! * b - readings[i]!),
      sd,
      ...(prior ? { prior } : {}),
    },
    [0, 0],
  )!;

describe("standardised residuals", () => {
  it("redundancy is how much of an error in a reading its own residual shows: adjusted again with 1 sd more", () => {
    const base = [3, 4, 7.5, -1];
    rows.forEach((_, i) => {
      const moved = adjust(base.with(i, base[i]! + sd[i]!));
      const shown = adjust(base).weighted[i]! - moved.weighted[i]!;
      expect(standardised(adjust(base), i).redundancy).toBeCloseTo(shown, 6);
    });
    const all = rows.map((_, i) => standardised(adjust(base), i).redundancy);
    expect(all.reduce((a, b) => a + b)).toBeCloseTo(2, 9);
  });

  it("scatter by 1 where readings scatter by their sd (2,000 adjustments, seed 4)", () => {
    const random = seeded(4);
    const squares = [0, 0, 0, 0];
    for (let n = 0; n < 2000; n++) {
      const found = adjust([3, 4, 7, -1].map((v, i) => v + sd[i]! * normal(random)));
      for (const i of squares.keys()) squares[i]! += standardised(found, i).normalized! ** 2 / 2000;
    }
    for (const s of squares) expect(Math.abs(s - 1)).toBeLessThan(0.1);
  });

  it("there is none where nothing checks a reading", () => {
    const alone = adjusted({ residuals: ([a = 0]) => [a - 5] }, [0])!;
    expect(standardised(alone, 0)).toEqual({ redundancy: expect.closeTo(0, 9) as number, normalized: null });
  });

  it("a belief checks a single reading: off by the reading's and the belief's errors together", () => {
    const found = adjusted({ residuals: ([a = 0]) => [a - 5], sd: [3], prior: [{ at: 0, sd: 4 }] }, [0])!;
    expect(checkedByPriors(found, 0)).toBeCloseTo(-1, 6);
    expect(standardised(found, 0).normalized).toBeCloseTo(-1, 6);
  });
});

describe("the suspect", () => {
  it("is the one farthest out, beyond the critical value alone", () => {
    expect(suspectAmong([1, -3.28, null, 3.29])).toBeUndefined();
    expect(suspectAmong([1, -3.3, null, 3.2])).toBe(1);
    expect(suspectAmong([-4, 5, -5])).toBe(1);
    expect(suspectAmong([])).toBeUndefined();
    expect(suspectAmong([Number.NaN, -4])).toBe(1);
  });
});
