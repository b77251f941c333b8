export { sayPoints, sayTurn } from "./bend.ts";
export type { Step } from "./cautions.ts";
export { cautionFor, FORCES, TRUE_SIZE, WHO_DECIDES } from "./cautions.ts";
export { sayArcs } from "./cope.ts";
export { isForOthers } from "./decides.ts";
export { sayDirection, sayPast, sayWhy } from "./fit.ts";
export { problemLine, sayHint, sayLength, sayProblem } from "./job.ts";
export { IDS, labels, labelsIn, type Names } from "./names.ts";
export { BENDER_PAGE, BENDER_PICTURES } from "./page-bender.ts";
export { ADD_TO_JOB, BETWEEN, BETWEEN_BAR, MEASURED, MEASURES, WRONG_MEASURE } from "./page-between.ts";
export { AGREEMENT, AXES, CAR, ERRORS, POINTS, sayOffPlan, TACKED } from "./page-car.ts";
export {
  COMPUTING,
  EXPLAIN_ERROR,
  ONE_MOMENT,
  PAPERS,
  PRINT_OR_SAVE,
  wholeSentence,
  withCapital,
  withSmall,
} from "./page-common.ts";
export {
  FOUND,
  GOES_IN,
  ORDER_COMMANDS,
  ORDER_LINE,
  ORDER_PAGE,
  TAG,
  TAG_IN_HAND,
  WAY_IN,
} from "./page-order.ts";
export {
  CHANGED,
  HELD_ON,
  type Lack,
  NEW_POINT,
  OLD_CARD,
  PICK_END,
  READING_LIST,
  READING_PAD,
  sayChange,
  sayLack,
  sayLeftOut,
  sayPicture,
} from "./page-readings.ts";
export { AS_BENT, sayBentSize, sayLandings, TO_READ, TRESTLES } from "./page-trestles.ts";
export { cautionOn, type SheetKind, stepsOn } from "./places.ts";
export { say } from "./say.ts";
export { saySlip } from "./slips.ts";
export { sayBentProblem, sayDepartures } from "./trestles/bent.ts";
export { sayScatter, saySource, sayStep } from "./trestles/errors.ts";
export { sayGapProblem, sayNextCut } from "./trestles/gaps.ts";
export { sayVerdict, verdictWords } from "./trestles/verdict.ts";
export { readOnly } from "./versions.ts";
export { written } from "./write.ts";
