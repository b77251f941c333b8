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
export type { Step } from "./cautions.ts";
export { cautionFor, FORCES, STEPS, TRUE_SIZE, WHO_DECIDES } from "./cautions.ts";
export { type Need, needs, REFUSED, STEP } from "./commands.ts";
export { isForOthers } from "./decides.ts";
export { BOUNDARY, DIALOG, HAND_OUT, KEYPAD, STAGE, TAKE_ONE } from "./kit.ts";
export { fromSawn, GAP_FIGURE, HEELS, NO_OFFSET, NOTCHER_SAYS, NOTCHER_STEPS } from "./notcher.ts";
export { JOBS } from "./page-jobs.ts";
export { CLOCK, GAP, GAPS, NOTCHER, RING } from "./page-notcher.ts";
export { DANGERS, NOTICES, RAIL, SHELL, TOP, UNITS, UNNAMED } from "./page-shell.ts";
export { MOVED, type MovedBar, QUESTIONS, WALL } from "./page-wall.ts";
export { cautionOn, type SheetKind, stepsOn } from "./places.ts";
export { asSentence, type ShopWriter } from "./shop-writer.ts";
export { START } from "./start.ts";
export { nothingSaved, notSaved, RECORD, STORED, type StorageFault } from "./storage.ts";
export { FIELDS, THINGS } from "./things.ts";
export { seenFrom, VIEW } from "./view.ts";
