export * from "./answers.ts";
export { sayPoints, sayTurn } from "./bend.ts";
export * from "./cards-bender.ts";
export * from "./cards-clock.ts";
export type { Hand } from "./cards-common.ts";
export {
  DANGER,
  FIELD,
  LOOK_FIRST,
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
export * from "./commands.ts";
export { sayArcs } from "./cope.ts";
export * from "./csv.ts";
export { isForOthers } from "./decides.ts";
export { IDS, labels, labelsIn, type Names } from "./names.ts";
export * from "./pictures.ts";

export { cautionOn, type SheetKind, stepsOn } from "./places.ts";
export { say } from "./say.ts";
export * from "./serve.ts";
export { saySlip } from "./slips.ts";
export { capital } from "./text.ts";
export { sayBentProblem, sayDepartures } from "./trestles/bent.ts";
export { sayScatter, saySource, sayStep } from "./trestles/errors.ts";
export { sayGapProblem, sayNextCut } from "./trestles/gaps.ts";
export { sayVerdict, verdictWords } from "./trestles/verdict.ts";
export { written } from "./write.ts";
