export type { Clash, Metal } from "./clash/index.ts";
export { clashesOf, metalOf, plateClash, selfClashes } from "./clash/index.ts";
export type { Lip, Mobility, Twist } from "./joint/index.ts";
export type { Effort, Joint, Judged, Past, Rests } from "./judge/index.ts";
export { EFFORT, pastPhrase, restsAt } from "./judge/index.ts";
export type { Ask, FitMemory, Fitting, Ordered, Remembered, Step } from "./order/index.ts";
export {
  askOf,
  cureOf,
  findOrder,
  finished,
  HANDS_AND_STRAP,
  isByGap,
  judgeAt,
  newMemory,
} from "./order/index.ts";
export type { Packing, Reach, Torch } from "./reach/index.ts";
export { packingOf, weldReach } from "./reach/index.ts";
export type { Box, FitBar, Gate, Pose, Quat } from "./scene/index.ts";
export { apart, interpolate, partsOf, plateObstacle, seatBox } from "./scene/index.ts";
export type { Push } from "./way/index.ts";
