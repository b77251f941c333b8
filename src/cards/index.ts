export type { CardFile, CardOptions } from "./files.ts";
export {
  benderCard,
  cardFiles,
  cardFindings,
  dieCard,
  markStrip,
  measuringPlan,
  notcherCard,
  orderSheet,
  overview,
  readingList,
  wrapCard,
} from "./files.ts";
export type { OrderFound } from "./order-sheet.ts";
export type { Print, PrintAsk, Unprinted } from "./print.ts";
export { printing, printJob } from "./print.ts";
export { BAR_SHEETS, type BarSheet, JOB_SHEETS, type JobSheet, TO_MAKE } from "./sheets.ts";
