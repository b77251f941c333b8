import { describe, expect, it } from "vitest";
import { seeded } from "../numeric/index.ts";
import { leastSquares } from "./leastsquares.ts";

/** A line through points, y = b0 + b1·x: the sums of any textbook. */
function lineBySums(x: readonly number[], y: readonly number[], w: readonly number[]): [number, number] {
  const sum = (f: (i: number) => number): number => x.reduce((s, _, i) => s + w[i]! * f(i), 0);
  const [n, sx, sy] = [sum(() => 1), sum((i) => x[i]!), sum((i) => y[i]!)];
  const [sxx, sxy] = [sum((i) => x[i]! ** 2), sum((i) => x[i]! * y[i]!)];
  const b1 = (n * sxy - sx * sy) / (n * sxx - sx * sx);
  return [(sy - b1 * sx) / n, b1];
}

describe("least squares", () => {
  it.each([1, 2, 3, 4, 5])("gives the weighted line that the sums give (seed %i)", (seed) => {
    const random = seeded(seed);
    const x = Array.from({ length: 9 }, (_, i) => i * 100 + 30 * random());
    const y = x.map((v) => 12 - 0.3 * v + 4 * (random() - 0.5));
    const sd = x.map(() => 0.5 + 2 * random());
    const weights = sd.map((s) => 1 / (s * s));
    const found = leastSquares({ residuals: (b) => x.map((v, i) => b[0]! + b[1]! * v - y[i]!), sd }, [0, 0]);
    if (!found.converged) throw new Error("a line must be found");
    const [b0, b1] = lineBySums(x, y, weights);
    expect(found.x[0]).toBeCloseTo(b0, 7);
    expect(found.x[1]).toBeCloseTo(b1, 9);
  });

  it("finds the same with given derivatives as with differences", () => {
    const x = [0.1, 0.4, 0.9, 1.7, 2.6];
    const y = [3.1, 2.4, 1.6, 0.8, 0.4];
    const residuals = (b: readonly number[]): number[] =>
      x.map((v, i) => b[0]! * Math.exp(-b[1]! * v) - y[i]!);
    const jacobian = (b: readonly number[]): number[][] =>
      x.map((v) => [Math.exp(-b[1]! * v), -b[0]! * v * Math.exp(-b[1]! * v)]);
    const [numeric, analytic] = [
      leastSquares({ residuals }, [1, 0.2]),
      leastSquares({ residuals, jacobian }, [1, 0.2]),
    ];
    if (!numeric.converged || !analytic.converged) throw new Error("both must be found");
    expect(numeric.x[0]).toBeCloseTo(analytic.x[0]!, 7);
    expect(numeric.x[1]).toBeCloseTo(analytic.x[1]!, 7);
  });

  it("weighs a prior like one reading of the unknown itself", () => {
    const found = leastSquares(
      { residuals: (b) => [b[0]! - 10, b[0]! - 14], sd: [1, 1], prior: [{ at: 0, sd: 2 }] },
      [3],
    );
    if (!found.converged) throw new Error("must be found");
    // Mean of 10, 14 and 0 with weights 1, 1, ¼.
    expect(found.x[0]).toBeCloseTo(24 / 2.25, 6);
    expect(found.weighted).toHaveLength(3);
    expect(found.rows[2]).toEqual([0.5]);
  });

  it("leaves an unknown that nothing tells of where it stood", () => {
    const found = leastSquares({ residuals: (b) => [b[0]! - 5] }, [1, 42]);
    if (!found.converged) throw new Error("must be found");
    expect(found.x[0]).toBeCloseTo(5, 9);
    expect(found.x[1]).toBe(42);
  });

  it("gives no x when its iterations run out", () => {
    const found = leastSquares({ residuals: (b) => [10 * (b[1]! - b[0]! ** 2), 1 - b[0]!, 0.5] }, [-1.2, 1], {
      iterations: 2,
    });
    expect(found).toMatchObject({ converged: false, iterations: 2, why: "iterations" });
    expect(found).not.toHaveProperty("x");
    expect(found.chi2).toBeGreaterThan(0.25);
  });

  it("gives no x where the function is not finite", () => {
    const found = leastSquares({ residuals: (b) => [Math.sqrt(b[0]!) - 2] }, [-1]);
    expect(found).toMatchObject({ converged: false, why: "not finite" });
    expect(found).not.toHaveProperty("x");
  });

  it("gives no x where the derivatives do not belong to the function", () => {
    const found = leastSquares(
      { residuals: (b) => [b[0]! - 3, b[0]! - 4], jacobian: () => [[-1], [-1]] },
      [0],
    );
    expect(found.converged).toBe(false);
  });

  it("takes a problem without unknowns as solved", () => {
    expect(leastSquares({ residuals: () => [3, 4] }, [])).toMatchObject({ converged: true, chi2: 25, x: [] });
  });
});
