export * from "./cards-bender.ts";
export * from "./cards-clock.ts";
export type { Hand } from "./cards-common.ts";
export {
  capital,
  DANGER,
  FIELD,
  LOOK_FIRST,
  listed,
  PLUS_MINUS,
  SOURCE,
  sayCard,
  sayDangers,
  sayHand,
  sayHosts,
  sayNotPrinted,
  sayNumber,
  sayOf,
  sayPlaceInJob,
  sayScale,
  saySheet,
  sayTube,
  sentence,
  TOO_MANY_SHEETS,
  WHERE_DANGERS,
} from "./cards-common.ts";
export * from "./cards-fit.ts";
export * from "./cards-notcher.ts";
export * from "./cards-overview.ts";
export * from "./cards-readings.ts";
export * from "./cards-source.ts";
export * from "./cards-wrap.ts";
export type { Step } from "./cautions.ts";
export { cautionFor, FORCES, STEPS, TRUE_SIZE, WHO_DECIDES } from "./cautions.ts";
export * from "./csv.ts";
export { isForOthers } from "./decides.ts";
export * from "./pictures.ts";
export { cautionOn, type SheetKind, stepsOn } from "./places.ts";
