export { type Adjustment, adjusted } from "./adjustment.ts";
export { chiSquareLimit, type GlobalTest, globalTest } from "./chisquare.ts";
export { type Cofactors, cofactors } from "./cofactors.ts";
export { axesOf, covarianceWith, deviationOf, learnt, type Row, shrinkage, sparse } from "./covariance.ts";
export { type LeastSquares, type LeastSquaresProblem, leastSquares } from "./leastsquares.ts";
export { fitLinear, type LinearFit } from "./linear.ts";
export { normalEquations } from "./normal.ts";
export { type Repeated, repeated } from "./repeated.ts";
export { CRITICAL, checkedByPriors, standardised, suspectAmong } from "./residuals.ts";
