export { sayGapProblem, sayNextCut } from "./gap-words.ts";
export type { GapReading, GapsRead, GapWay } from "./gaps.ts";
export { readGaps } from "./gaps.ts";
export type { FiguredJoint } from "./joint.ts";
export type { NextCut } from "./next-cut.ts";
export { nextCut } from "./next-cut.ts";
