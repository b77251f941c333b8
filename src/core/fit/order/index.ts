export type { Ask, Fitting, Step } from "./fitting.ts";
export { askOf } from "./fitting.ts";
export type { FitMemory, Remembered } from "./memory.ts";
export { newMemory } from "./memory.ts";
export { cureOf, finished, HANDS_AND_STRAP, isByGap, judgeAt } from "./order.ts";
export type { Ordered } from "./takeapart.ts";
export { findOrder } from "./takeapart.ts";
