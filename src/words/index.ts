export * from "./answers.ts";
export { BAR_PANEL, MOVE_BAR, NEW_BAR, NODE_TOOLS } from "./bar-panel.ts";
export {
  ALONG_SIDES,
  BAR,
  CHOICES,
  NODE,
  NODE_WAYS,
  NOT_SET,
  nodeTitle,
  nodeWords,
  SENTENCE,
  SIDES,
} from "./bar-sentences.ts";
export {
  sayPoints,
  sayTurn,
} from "./bend.ts";
export * from "./car-places.ts";
export * from "./cards-bender.ts";
export * from "./cards-clock.ts";
export type { Hand } from "./cards-common.ts";
export {
  DANGER,
  EXAMPLES,
  FIELD,
  LOOK_FIRST,
  SOURCE,
  sayCard,
  sayDangers,
  sayHand,
  sayHosts,
  sayNotPrinted,
  sayNumber,
  sayOf,
  sayScale,
  saySheet,
  sayTube,
  TOO_MANY_SHEETS,
  WHERE_DANGERS,
} from "./cards-common.ts";
export * from "./cards-die.ts";
export * from "./cards-fit.ts";
export * from "./cards-notcher.ts";
export * from "./cards-overview.ts";
export * from "./cards-readings.ts";
export * from "./cards-source.ts";
export * from "./cards-wrap.ts";
export type { Step } from "./cautions.ts";
export { cautionFor, FORCES, TRUE_SIZE, WHO_DECIDES } from "./cautions.ts";
export * from "./command-line.ts";
export { type Need, needs, REFUSED, STEP } from "./commands.ts";
export { sayArcs } from "./cope.ts";
export * from "./csv.ts";
export { isEased, isForOthers } from "./decides.ts";
export { directionWords } from "./direction.ts";
export { sayDirection, sayWhy } from "./fit.ts";
export { problemLine, problemOnPage, sayLength, sayProblem } from "./job.ts";
export * from "./job-sheets.ts";
export * from "./keys.ts";
export { BOUNDARY, DIALOG, HAND_OUT, KEYPAD, NO_BARS, STAGE, TAKE_ONE } from "./kit.ts";
export { LONG_WORK } from "./long.ts";
export { CHANGE_CALL, MADE_CHANGED, nameVerdict, REUSE, sayMade, sayPiece, sayReuse } from "./made.ts";
export {
  AS_MADE,
  bentLines,
  notchLines,
  OLD_PAPER,
  type RecordLine,
  sawnLines,
  sayChanged,
} from "./made-record.ts";
export { IDS, labels, labelsIn, type Names } from "./names.ts";
export { fromSawn, GAP_FIGURE, HEELS, NO_OFFSET, NOTCHER_SAYS, NOTCHER_STEPS } from "./notcher.ts";
export { BENDER_PAGE, BENDER_PICTURES, CHECK_SIZES } from "./page-bender.ts";
export { ADD_TO_JOB, BETWEEN, BETWEEN_BAR, MEASURED, MEASURES, WRONG_MEASURE } from "./page-between.ts";
export { AGREEMENT, AXES, CAR, ERRORS, POINTS, sayOffPlan, TACKED } from "./page-car.ts";
export * from "./page-car-point.ts";
export {
  COMPUTING,
  ONE_MOMENT,
  PAPERS,
  PRINT_OR_SAVE,
} from "./page-common.ts";
export { JOBS } from "./page-jobs.ts";
export { ASK_CHANGE, COME_TO, MADE_LIST, MAKE_AGAIN, NOT_AS_WANTED } from "./page-made.ts";
export { CLOCK, GAP, GAPS, NOTCHER, RING } from "./page-notcher.ts";
export {
  FOUND,
  GOES_IN,
  LACKS,
  ORDER_COMMANDS,
  ORDER_LINE,
  ORDER_PAGE,
  TAG,
  TAG_IN_HAND,
  WAY_IN,
} from "./page-order.ts";
export { DIE_PAGE, MY_SHOP } from "./page-own-shop.ts";
export { PRINT_PAGE } from "./page-print.ts";
export * from "./page-rail.ts";
export * from "./page-rail-more.ts";
export {
  CHANGED,
  HELD_ON,
  type Lack,
  NEW_POINT,
  PICK_END,
  READING_LIST,
  READING_PAD,
  sayChange,
  sayLack,
  sayLeftOut,
  sayPicture,
} from "./page-readings.ts";
export { DANGERS, NOTICES, SHELL, TOP, UNITS, UNNAMED } from "./page-shell.ts";
export * from "./page-shop.ts";
export { AS_BENT, sayBentSize, sayLandings, TO_READ, TRESTLES, USUAL } from "./page-trestles.ts";
export { CHANGE_BAND, IN_ONE_LINE, MOVED, type MovedBar, QUESTIONS, WALL } from "./page-wall.ts";
export * from "./pictures.ts";
export { cautionOn, type SheetKind, stepsOn } from "./places.ts";
export { PRINTED } from "./printed.ts";
export { say } from "./say.ts";
export * from "./serve.ts";
export { JOIN, SHOP } from "./shop.ts";
export { FILED } from "./shop-files.ts";
export { SHOP_SERVE } from "./shop-serve.ts";
export { saySlip } from "./slips.ts";
export { SHOP_START, START } from "./start.ts";
export { nothingSaved, notSaved, RECORD, STORED, type StorageFault } from "./storage.ts";
export { capital, EXPLAIN_ERROR, inLine, sayPercent, sentence, small } from "./text.ts";
export { FIELDS, LEAD, THINGS } from "./things.ts";
export { sayBentProblem, sayDepartures } from "./trestles/bent.ts";
export { sayScatter, saySource, sayStep } from "./trestles/errors.ts";
export { sayGapProblem, sayNextCut } from "./trestles/gaps.ts";
export { sayVerdict, verdictWords } from "./trestles/verdict.ts";
export { readOnly } from "./versions.ts";
export { seenFrom, VIEW, VIEW_KEYS } from "./view.ts";
export { written } from "./write.ts";
