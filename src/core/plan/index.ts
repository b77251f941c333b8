export { fittingOf } from "./fitting.ts";
export type { BarPlan, Plan } from "./plan.ts";
export { allFindings, hostsOf, notchAt, planJob } from "./plan.ts";
