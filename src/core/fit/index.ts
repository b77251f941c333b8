export type { Effort, FitBar, Joint, Judged } from "./judge.ts";
export type { Programme, Solved } from "./lp.ts";
export type { Contact, Lip, Mobility, Twist } from "./mobility.ts";
export type { Fitting, Ordered } from "./order.ts";
export { cureOf, findOrder, judgeOrder } from "./order.ts";
export { partsOf } from "./parts.ts";
export type { Pose, Quat } from "./pose.ts";
export type { Swept } from "./sweep.ts";
