export type { ClashOf } from "./clash.ts";
export type { BarFacts } from "./facts.ts";
export { Second } from "./facts.ts";
export type { End } from "./job.ts";
