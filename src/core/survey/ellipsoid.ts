// biome-ignore-all lint/style/noNonNullAssertion: a 3 by 3 matrix has three eigenvalues and columns of three
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import type { Vec } from "../space/index.ts";
import type { Ellipsoid } from "./types.ts";

/** Half axes and directions of the one-sd ellipsoid of a covariance (mm²), the greatest first. */
export function ellipsoidOf(covariance: readonly [Vec, Vec, Vec]): Ellipsoid {
  const { eigenvectorMatrix, realEigenvalues } = new EigenvalueDecomposition(
    new Matrix(covariance.map((row) => [...row])),
    { assumeSymmetric: true },
  );
  const order = [0, 1, 2].sort((a, b) => realEigenvalues[b]! - realEigenvalues[a]!);
  const axis = (k: number): Vec => {
    const [x, y, z] = eigenvectorMatrix.getColumn(order[k]!);
    return [x!, y!, z!];
  };
  const half = (k: number): number => Math.sqrt(Math.max(0, realEigenvalues[order[k]!]!));
  return { axes: [half(0), half(1), half(2)], directions: [axis(0), axis(1), axis(2)] };
}
