export type { Clash } from "./clash.ts";
export { clashesOf, selfClashes } from "./clash.ts";
export type { Metal } from "./metal.ts";
export { metalOf } from "./metal.ts";
export { plateClash } from "./plate.ts";
