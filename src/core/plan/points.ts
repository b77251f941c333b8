import type { Vec } from "../space/index.ts";
import type { Places } from "./places.ts";

/** Where a point of the job stands (mm, car axes), and how well that is known. */
export interface PlacedPoint {
  readonly at: Vec;
  /** What its coordinates are uncertain by and have in common (mm²); absent where the place is exact. */
  readonly covariance?: readonly [Vec, Vec, Vec];
}

/**
 * The job's points as its bars stand on them, by ID: as the readings put them, else as given. One that is not known and
 * that the readings leave free is not among them. A place given with an error that no reading touches has that error,
 * each coordinate by itself.
 */
export function placedPoints({ job, survey }: Places): Readonly<Record<string, PlacedPoint>> {
  return Object.fromEntries(
    Object.entries(job.points).flatMap(([id, { at, sd }]): (readonly [string, PlacedPoint])[] => {
      if (!at) return [];
      const covariance = survey?.points.get(id)?.covariance ?? diagonal(sd);
      return [[id, covariance.flat().some((v) => v !== 0) ? { at, covariance } : { at }]];
    }),
  );
}

const diagonal = ([x, y, z]: Vec): readonly [Vec, Vec, Vec] => [
  [x * x, 0, 0],
  [0, y * y, 0],
  [0, 0, z * z],
];
