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
