export { judgeMade, type Limits, type Want } from "./judge.ts";
export { type DieNow, lengthened, madeBar, shapeMade } from "./made.ts";
export { type Ends, type Seated, seated, type WantedBar } from "./seat.ts";
export type { MadeBar, MadeStep, MadeVerdict, Reason, Rim } from "./types.ts";
