import { describe, expect, test } from "vitest";
import { fitLinear } from "../../src/core/estimate/index.ts";

/**
 * NIST Statistical Reference Datasets, linear regression, "Norris" (36 observations, y then x) and its certified
 * values: itl.nist.gov/div898/strd/lls/data/Norris.shtml.
 */
const NORRIS =
  `0.1 0.2 338.8 337.4 118.1 118.2 888 884.6 9.2 10.1 228.1 226.5 668.5 666.3 998.5 996.3 449.1 448.6
778.9 777 559.2 558.2 0.3 0.4 0.1 0.6 778.1 775.5 668.8 666.9 339.3 338 448.9 447.5 10.8 11.6 557.7 556 228.3 228.1
998 995.8 888.8 887.6 119.6 120.2 0.3 0.3 0.6 0.3 557.6 556.8 339.3 339.1 888 887.2 998.5 999 778.9 779 10.2 11.1
117.6 118.3 228.9 229.2 668.4 669.1 449.2 448.9 0.2 0.5`
    .split(/\s+/)
    .map(Number);

describe("NIST StRD Norris", () => {
  const y = NORRIS.filter((_, i) => i % 2 === 0);
  const x = NORRIS.filter((_, i) => i % 2 === 1);
  // Stated errors far below the residuals, so that the ± comes from the residuals as NIST has it.
  const fit = fitLinear(
    x.map((v) => [1, v]),
    y,
    y.map(() => 0.01),
  )!;

  test("36 observations", () => {
    expect([y.length, x.length]).toEqual([36, 36]);
  });

  test("estimates, certified to 15 digits", () => {
    expect(fit.x[0]).toBeCloseTo(-0.262323073774029, 10);
    expect(fit.x[1]).toBeCloseTo(1.00211681802045, 12);
  });

  test("standard deviations of the estimates and of the residuals", () => {
    expect(Math.sqrt(fit.covariance[0]![0]!)).toBeCloseTo(0.232818234301152, 11);
    expect(Math.sqrt(fit.covariance[1]![1]!)).toBeCloseTo(0.429796848199937e-3, 13);
    expect(fit.spread * 0.01).toBeCloseTo(0.884796396144373, 11);
  });
});
