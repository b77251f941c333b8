import { describe, expect, it } from "vitest";
import { repeated } from "./repeated.ts";

describe("repeated readings", () => {
  it("NIST StRD, univariate: NumAcc1 to NumAcc3 (certified mean and standard deviation)", () => {
    const around = (middle: number): number[] => [
      middle,
      ...Array.from({ length: 1000 }, (_, i) => middle + (i % 2 === 0 ? -0.1 : 0.1)),
    ];
    for (const [readings, mean, sd] of [
      [[10000001, 10000003, 10000002], 10000002, 1],
      [around(1.2), 1.2, 0.1],
      [around(1000000.2), 1000000.2, 0.1],
    ] as const) {
      const found = repeated(readings)!;
      expect(found.mean / mean).toBeCloseTo(1, 12);
      expect(found.sd / sd).toBeCloseTo(1, 8);
    }
  });

  it("ten of one tape: a standard deviation, itself known to a quarter", () => {
    const tape = [600.5, 601, 600, 600.5, 601.5, 600, 600.5, 601, 599.5, 600.5];
    const found = repeated(tape, 0.5)!;
    // by hand: mean 600.5, squares 0.25·(0+1+1+0+4+1+0+1+4+0) = 3, over 9
    expect(found.mean).toBeCloseTo(600.5, 12);
    expect(found.sd).toBeCloseTo(Math.sqrt(3 / 9), 12);
    expect(found.sdOfSd / found.sd).toBeCloseTo(1 / Math.sqrt(18), 12);
    expect(found.isScale).toBe(false);
  });

  it("all alike: no error of nothing, but what the scale can hide", () => {
    expect(repeated([600, 600, 600], 1)).toMatchObject({ sd: 1 / Math.sqrt(12), isScale: true });
    expect(repeated([600], 1)).toBeUndefined();
  });
});
