import { describe, expect, it } from "vitest";
import { seeded } from "../numeric/index.ts";
import { cofactors } from "./cofactors.ts";
import { axesOf, covarianceWith, deviationOf, learnt, shrinkage, sparse, varianceOf } from "./covariance.ts";

const randomRows = (m: number, n: number, random: () => number): number[][] =>
  Array.from({ length: m }, () => Array.from({ length: n }, () => (random() < 0.3 ? 0 : random() - 0.5)));

describe.each([1, 2, 3])("one more reading (seed %i)", (seed) => {
  const rows = randomRows(12, 5, seeded(seed));
  const more = [0, 0.7, 0, -0.3, 0.1];
  const { covariance } = cofactors(rows, 5);
  const { covariance: slow } = cofactors([...rows, more], 5);

  it("leaves the covariance that adjusting all anew gives", () => {
    learnt(covariance, sparse(more)).forEach((row, i) => {
      row.forEach((v, j) => {
        expect(v).toBeCloseTo(slow[i]![j]!, 9);
      });
    });
  });

  it("shrinks the variances by what is told beforehand", () => {
    const some = [0, 3];
    const sum = (c: typeof slow): number => some.reduce((s, i) => s + c[i]![i]!, 0);
    expect(shrinkage(covariance, sparse(more), some)).toBeCloseTo(sum(covariance) - sum(slow), 9);
  });

  it("a figure's variance is that of its row, through the covariance's own axes too", () => {
    const row = sparse(more);
    const along = axesOf(covariance, 5).map((axis) => axis.reduce((s, v, i) => s + v * more[i]!, 0));
    expect(Math.hypot(...along)).toBeCloseTo(deviationOf(covariance, [row]), 9);
    expect(varianceOf(covariance, row)).toBeCloseTo(deviationOf(covariance, [row]) ** 2, 9);
    expect(covarianceWith(covariance, sparse([0, 0, 1, 0, 0]), 3)).toBe(covariance[3]![2]);
  });
});

it("a combination without error has no axis", () => {
  expect(
    axesOf(
      [
        [4, 2],
        [2, 1],
      ],
      2,
    ),
  ).toEqual([
    [2, 1],
    [0, 0],
  ]);
});
