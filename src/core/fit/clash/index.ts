export type { Clash } from "./clash.ts";
export { clashesOf, plateClash, selfClashes } from "./clash.ts";
export type { Metal } from "./metal.ts";
export { metalOf } from "./metal.ts";
