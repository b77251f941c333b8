export type { Step } from "./cautions.ts";
export { cautionFor, FORCES, STEPS, TRUE_SIZE, WHO_DECIDES } from "./cautions.ts";
export { sayChange } from "./change.ts";
export { isForOthers } from "./decides.ts";
export { cautionOn, type SheetKind, stepsOn } from "./places.ts";
