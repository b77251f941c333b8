/**
 * Overlap up to this (mm) is a touch: a stroke of a file, and no more than a tube's own roundness is off. More is a
 * clash. (A choice of ours; tubes are commonly round to some tenths: common practice, no source.)
 */
export const MERE_TOUCH = 0.05;
