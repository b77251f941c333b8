/**
 * NIST Statistical Reference Datasets, nonlinear regression (www.itl.nist.gov/div898/strd, data files Misra1a.dat,
 * BoxBOD.dat, MGH09.dat, Thurber.dat; public facts of the US government, retyped): data, both starts, certified
 * parameters, their standard deviations, residual sum of squares.
 */
import { describe, expect, it } from "vitest";
import { cofactors, leastSquares } from "../../src/core/estimate/index.ts";

interface Dataset {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly model: (x: number, b: readonly number[]) => number;
  readonly starts: readonly (readonly number[])[];
  readonly certified: readonly number[];
  readonly sd: readonly number[];
  readonly rss: number;
}

const saturating = (x: number, b: readonly number[]): number => b[0]! * (1 - Math.exp(-b[1]! * x));

const DATASETS: Readonly<Record<string, Dataset>> = {
  Misra1a: {
    x: [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760],
    y: [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78],
    model: saturating,
    starts: [
      [500, 0.0001],
      [250, 0.0005],
    ],
    certified: [238.94212918, 5.5015643181e-4],
    sd: [2.7070075241, 7.2668688436e-6],
    rss: 0.12455138894,
  },
  BoxBOD: {
    x: [1, 2, 3, 5, 7, 10],
    y: [109, 149, 149, 191, 213, 224],
    model: saturating,
    starts: [
      [1, 1],
      [100, 0.75],
    ],
    certified: [213.80940889, 0.54723748542],
    sd: [12.354515176, 0.10455993237],
    rss: 1168.0088766,
  },
  MGH09: {
    x: [4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625],
    y: [0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246],
    model: (x, b) => (b[0]! * (x * x + x * b[1]!)) / (x * x + x * b[2]! + b[3]!),
    starts: [
      [25, 39, 41.5, 39],
      [0.25, 0.39, 0.415, 0.39],
    ],
    certified: [0.19280693458, 0.19128232873, 0.12305650693, 0.13606233068],
    sd: [0.011435312227, 0.19633220911, 0.080842031232, 0.090025542308],
    rss: 3.0750560385e-4,
  },
  Thurber: {
    x: [
      -3.067, -2.981, -2.921, -2.912, -2.84, -2.797, -2.702, -2.699, -2.633, -2.481, -2.363, -2.322, -1.501,
      -1.46, -1.274, -1.212, -1.1, -1.046, -0.915, -0.714, -0.566, -0.545, -0.4, -0.309, -0.109, -0.103, 0.01,
      0.119, 0.377, 0.79, 0.963, 1.006, 1.115, 1.572, 1.841, 2.047, 2.2,
    ],
    y: [
      80.574, 84.248, 87.264, 87.195, 89.076, 89.608, 89.868, 90.101, 92.405, 95.854, 100.696, 101.06,
      401.672, 390.724, 567.534, 635.316, 733.054, 759.087, 894.206, 990.785, 1090.109, 1080.914, 1122.643,
      1178.351, 1260.531, 1273.514, 1288.339, 1327.543, 1353.863, 1414.509, 1425.208, 1421.384, 1442.962,
      1464.35, 1468.705, 1447.894, 1457.628,
    ],
    model: (x, b) =>
      (b[0]! + b[1]! * x + b[2]! * x * x + b[3]! * x ** 3) / (1 + b[4]! * x + b[5]! * x * x + b[6]! * x ** 3),
    starts: [
      [1000, 1000, 400, 40, 0.7, 0.3, 0.03],
      [1300, 1500, 500, 75, 1, 0.4, 0.05],
    ],
    certified: [
      1288.13968, 1491.0792535, 583.23836877, 75.416644291, 0.96629502864, 0.39797285797, 0.049727297349,
    ],
    sd: [
      4.6647963344, 39.571156086, 28.698696102, 5.567537027, 0.03133334068, 0.014984928198, 0.0065842344623,
    ],
    rss: 5642.7082397,
  },
};

/** How far off, as a share of the certified value. */
const off = (got: number, certified: number): number => Math.abs(got / certified - 1);

describe.each(Object.entries(DATASETS))("NIST StRD %s", (_, set) => {
  it.each([0, 1])("from start %i, to six digits and more", (which) => {
    const found = leastSquares(
      { residuals: (b) => set.x.map((x, i) => set.model(x, b) - set.y[i]!) },
      set.starts[which]!,
    );
    if (!found.converged) throw new Error(`no convergence: ${JSON.stringify(found)}`);
    set.certified.forEach((b, j) => {
      expect(off(found.x[j]!, b)).toBeLessThan(5e-7);
    });
    expect(off(found.chi2, set.rss)).toBeLessThan(1e-9);

    const { covariance, rank, loose } = cofactors(found.rows, set.certified.length);
    expect(rank).toBe(set.certified.length);
    expect(loose).toEqual([]);
    const unit = found.chi2 / (set.x.length - rank);
    set.sd.forEach((sd, j) => {
      expect(off(Math.sqrt(unit * covariance[j]![j]!), sd)).toBeLessThan(1e-6);
    });
  });
});
