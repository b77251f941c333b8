import { describe, expect, test } from "vitest";
import { normal, seeded } from "../numeric/index.ts";
import { fitLinear } from "./linear.ts";

describe("fitLinear", () => {
  test("one unknown, one reading", () => {
    const fit = fitLinear([[2]], [4], [1])!;
    expect(fit.x[0]).toBeCloseTo(2, 12);
    expect(fit.covariance[0]![0]).toBeCloseTo(0.25, 12);
    expect(fit.gain[0]![0]).toBeCloseTo(0.5, 12);
    expect(fit.condition).toBeCloseTo(1, 12);
    expect(fit.spare).toBe(0);
  });

  test("slow twin: the normal equations of a weighted line, by hand, seed 7", () => {
    const random = seeded(7);
    for (let trial = 0; trial < 50; trial++) {
      const n = 2 + (trial % 5);
      const at = Array.from({ length: n }, (_, i) => 10 + 40 * i + 20 * random());
      const sd = at.map(() => 0.5 + random());
      const read = at.map((x, i) => 3 + 0.9 * x + sd[i]! * normal(random));
      const sum = (f: (i: number) => number): number =>
        at.reduce((s, _, i) => s + f(i) / (sd[i]! * sd[i]!), 0);
      const [w, wx, wxx] = [sum(() => 1), sum((i) => at[i]!), sum((i) => at[i]! ** 2)];
      const [wy, wxy] = [sum((i) => read[i]!), sum((i) => at[i]! * read[i]!)];
      const det = w * wxx - wx * wx;
      const slope = (w * wxy - wx * wy) / det;
      const offset = (wxx * wy - wx * wxy) / det;
      const fit = fitLinear(
        at.map((x) => [x, 1]),
        read,
        sd,
      )!;
      expect(fit.x[0]).toBeCloseTo(slope, 9);
      expect(fit.x[1]).toBeCloseTo(offset, 7);
      const chi2 = sum((i) => (read[i]! - slope * at[i]! - offset) ** 2);
      const spread = n > 2 ? Math.max(1, Math.sqrt(chi2 / (n - 2))) : 1;
      expect(fit.spread).toBeCloseTo(spread, 8);
      expect(fit.covariance[0]![0]).toBeCloseTo((spread ** 2 * w) / det, 8);
      expect(fit.covariance[0]![1]).toBeCloseTo((-(spread ** 2) * wx) / det, 6);
      for (const row of [0, 1] as const) {
        const byGain = fit.gain[row]!.reduce((s, g, i) => s + g * read[i]!, 0);
        expect(byGain).toBeCloseTo(fit.x[row]!, 8);
      }
    }
  });

  test("readings that agree by luck do not make the ± smaller than the stated errors", () => {
    const fit = fitLinear([[1], [1], [1]], [5, 5, 5], [1, 1, 1])!;
    expect(fit.spread).toBe(1);
    expect(Math.sqrt(fit.covariance[0]![0]!)).toBeCloseTo(1 / Math.sqrt(3), 12);
  });

  test("too few rows, or rows that say the same, give nothing", () => {
    expect(fitLinear([[1, 2]], [3], [1])).toBeUndefined();
    expect(
      fitLinear(
        [
          [1, 2],
          [2, 4],
        ],
        [3, 6],
        [1, 1],
      ),
    ).toBeUndefined();
    expect(fitLinear([], [], [])).toBeUndefined();
  });
});
