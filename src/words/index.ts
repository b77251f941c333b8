export type { Step } from "./cautions.ts";
export { cautionFor, STEPS, TRUE_SIZE, WHO_DECIDES } from "./cautions.ts";
export { cautionOn, type SheetKind, stepsOn } from "./places.ts";
