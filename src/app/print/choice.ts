import { BAR_SHEETS, type BarSheet, JOB_SHEETS, type JobSheet, TO_MAKE } from "../../cards/sheets.ts";
import { recall, remember } from "../kit/index.ts";

/** Which bars are printed. */
export type Which = "hand" | "marked" | "all" | "none";

/** The sheets that this device printed last; at first all that a bar is made from. */
export interface Sheets {
  readonly bar: readonly BarSheet[];
  readonly job: readonly JobSheet[];
}

const KEY = "print sheets";

export function sheetsNow(): Sheets {
  const kept = recall(KEY)?.split(",");
  return {
    bar: kept ? BAR_SHEETS.filter((sheet) => kept.includes(sheet)) : TO_MAKE,
    job: kept ? JOB_SHEETS.filter((sheet) => kept.includes(sheet)) : [],
  };
}

export const keepSheets = ({ bar, job }: Sheets): void => remember(KEY, [...bar, ...job].join(","));

/** What is most likely wanted: what is marked, else what is in hand, else everything. */
export const likely = (inHand: string | null, marked: number): Which =>
  marked > 0 ? "marked" : inHand === null ? "all" : "hand";
