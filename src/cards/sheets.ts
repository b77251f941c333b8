/** Sheets of one bar, in the order in which a print has them. */
export const BAR_SHEETS = ["bender", "notcher", "saw wraps", "torch wraps", "strip", "trestles"] as const;
export type BarSheet = (typeof BAR_SHEETS)[number];

/** Sheets of the whole job, which a print has before those of its bars. */
export const JOB_SHEETS = ["overview", "order", "measuring", "readings"] as const;
export type JobSheet = (typeof JOB_SHEETS)[number];

/** The sheets that a bar's own file has: all that it is made from. */
export const TO_MAKE: readonly BarSheet[] = BAR_SHEETS.filter((sheet) => sheet !== "trestles");
