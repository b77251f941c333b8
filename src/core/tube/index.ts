export type { Section } from "./section.ts";
export { STEEL, sectionOf } from "./section.ts";
