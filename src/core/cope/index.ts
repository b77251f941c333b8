export type { CopeResult } from "./curve.ts";
export { copeOf, joinedArcs, LINES } from "./curve.ts";
export type { EndFrame } from "./frame.ts";
export { endFrame } from "./frame.ts";
export type { Joint, JointHost } from "./joint.ts";
export { includedAngle, jointOf } from "./joint.ts";
export type { Cope } from "./types.ts";
