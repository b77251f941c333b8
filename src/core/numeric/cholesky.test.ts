import { Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { inverseSymmetric } from "./cholesky.ts";
import { seeded } from "./random.ts";

describe("the inverse of a symmetric matrix", () => {
  it("times the matrix is one, and there is none of a matrix that is not positive", () => {
    const random = seeded(9);
    const j = new Matrix(Array.from({ length: 30 }, () => Array.from({ length: 20 }, () => random() - 0.5)));
    const a = j.transpose().mmul(j).to2DArray();
    a.forEach((row, i) => {
      for (let k = 0; k < i; k++) row[k] = a[k]![i]!;
    });
    const one = new Matrix(inverseSymmetric(a)!).mmul(new Matrix(a)).sub(Matrix.eye(20));
    expect(one.norm()).toBeLessThan(1e-9);
    expect(inverseSymmetric([[0]])).toBeUndefined();
    expect(
      inverseSymmetric([
        [1, 2],
        [2, 1],
      ]),
    ).toBeUndefined();
  });
});
