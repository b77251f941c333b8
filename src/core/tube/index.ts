export type { Section } from "./section.ts";
export { sectionOf } from "./section.ts";
export { STEEL } from "./steel.ts";
export { arcRound, extent, girth, halfExtent, sameTube, sizeOf } from "./tube.ts";
