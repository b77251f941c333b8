export { judgeMade, type Limits, type Want } from "./judge.ts";
export { type DieNow, lengthened, madeBar, shapeMade } from "./made.ts";
export type { Ends, WantedBar } from "./spots.ts";
export { lengthLeft, turnedRound } from "./turned.ts";
export type { MadeBar, MadeStep, MadeVerdict, Reason, Rim } from "./types.ts";
