export { deg, rad, sinCosDeg, wrap360, wrapPi } from "./angle.ts";
export { inverseSymmetric, type Rows, solveSymmetric } from "./cholesky.ts";
export { isSameFigure, isSameTurn } from "./figures.ts";
export { goldenLeast } from "./golden.ts";
export { type Least, nelderMead } from "./neldermead.ts";
export { flat, maximise, type Programme } from "./programme.ts";
export { normal, seeded } from "./random.ts";
export { GRAZE, LEAST_BEND, NO_BEND, NO_LENGTH, ROOT, SAME_PLACE } from "./tolerance.ts";
