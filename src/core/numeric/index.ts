export { deg, rad, sinCosDeg, wrap360, wrapPi } from "./angle.ts";
export { type Cofactors, cofactors } from "./cofactors.ts";
export { goldenLeast } from "./golden.ts";
export { type LeastSquares, type LeastSquaresProblem, leastSquares } from "./leastsquares.ts";
export { fitLinear, type LinearFit } from "./linear.ts";
export { inverseSymmetric, normalEquations, type Rows } from "./normal.ts";
export { normal, seeded } from "./random.ts";
export { type Least, nelderMead } from "./simplex.ts";
export { GRAZE, LEAST_BEND, NO_BEND, NO_LENGTH, ROOT, SAME_PLACE } from "./tolerance.ts";
