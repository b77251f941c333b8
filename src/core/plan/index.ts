export type { Restated } from "./aftertack.ts";
export { restate } from "./aftertack.ts";
export type { BarErrors } from "./errors.ts";
export { barErrors, placeErrors } from "./errors.ts";
export { fittingOf } from "./fitting.ts";
export type { BarPlan, Plan } from "./plan.ts";
export { allFindings, hostsOf, notchAt, planJob } from "./plan.ts";
