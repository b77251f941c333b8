export { advance, SEARCH_TOUCH, TOUCH, travel } from "./advance.ts";
export { nudged } from "./nudge.ts";
export { farIn, isOutside, outsideOf } from "./outside.ts";
export {
  type How,
  type Motion,
  type MotionTask,
  type Push,
  pressed,
} from "./push.ts";
export { leastSpring } from "./spring.ts";
export { sweep } from "./sweep.ts";
export type { Swung } from "./swung.ts";
export { swungClear } from "./swung.ts";
export { throughOf } from "./through.ts";
export { findWay } from "./way.ts";
