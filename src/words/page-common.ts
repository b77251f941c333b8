export const COMPUTING = "Computing…";
export const ONE_MOMENT = "One moment…";

/** The dialog of what can be printed or saved, and the button that opens it. */
export const PRINT_OR_SAVE = "Print or save";
/** What can be printed or saved, by its name on paper. */
export const PAPERS = {
  readingList: "Reading list",
  measuringPlan: "Measuring plan",
  benderCard: "Bender card",
  sawCard: "Saw card",
  markStrip: "Mark strip",
  notcherCard: "Notcher card",
  order: "Order of fitting",
} as const;
