export type { CardFile, CardOptions } from "./files.ts";
export {
  benderCard,
  cardFiles,
  cardFindings,
  markStrip,
  measuringPlan,
  notcherCard,
  orderSheet,
  overview,
  readingList,
  wrapCard,
} from "./files.ts";
export type { OrderFound } from "./order-sheet.ts";
export type { BarSheet, JobSheet, Print, PrintAsk, Unprinted } from "./print.ts";
export { BAR_SHEETS, JOB_SHEETS, printJob, TO_MAKE } from "./print.ts";
