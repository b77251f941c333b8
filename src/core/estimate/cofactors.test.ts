import { Matrix, pseudoInverse } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { seeded } from "../numeric/index.ts";
import { cofactors } from "./cofactors.ts";

const randomRows = (m: number, n: number, random: () => number): number[][] =>
  Array.from({ length: m }, () => Array.from({ length: n }, () => random() - 0.5));

describe("cofactors", () => {
  it.each([1, 2, 3])("is the inverse of the normal matrix, as singular values give it (seed %i)", (seed) => {
    const rows = randomRows(12, 5, seeded(seed));
    const { covariance, rank, loose } = cofactors(rows, 5);
    const j = new Matrix(rows);
    const slow = pseudoInverse(j.transpose().mmul(j)).to2DArray();
    expect(rank).toBe(5);
    expect(loose).toEqual([]);
    slow.forEach((row, a) => {
      row.forEach((v, b) => {
        expect(covariance[a]![b]).toBeCloseTo(v, 8);
      });
    });
  });

  it("tells which unknowns two readings of their sum leave free, and keeps the third", () => {
    const { covariance, rank, loose } = cofactors(
      [
        [1, 1, 0],
        [1, 1, 0],
        [0, 0, 2],
      ],
      3,
    );
    expect(rank).toBe(2);
    expect(loose).toEqual([0, 1]);
    expect(covariance[2]![2]).toBeCloseTo(0.25, 12);
    // The sum itself is known to 1/√2.
    const [c] = [covariance];
    expect(c[0]![0]! + 2 * c[0]![1]! + c[1]![1]!).toBeCloseTo(0.5, 9);
  });

  it("counts an unknown as free that must go farther than it can to be noticed", () => {
    const rows = [
      [1, 0],
      [0, 1e-5],
    ];
    expect(cofactors(rows, 2)).toMatchObject({ rank: 2, loose: [] });
    expect(cofactors(rows, 2, [1000, 1000])).toMatchObject({ rank: 1, loose: [1] });
    expect(cofactors([[0, 0]], 2)).toMatchObject({ rank: 0, loose: [0, 1] });
  });

  it("does not mind unknowns of very different size", () => {
    const { covariance, rank } = cofactors(
      [
        [1e6, 1e-6],
        [1e6, -1e-6],
      ],
      2,
    );
    expect(rank).toBe(2);
    expect(covariance[0]![0]! * 1e12).toBeCloseTo(0.5, 9);
    expect(covariance[1]![1]! / 1e12).toBeCloseTo(0.5, 9);
  });
});
