/** Beside the ± of a page, once. */
export const EXPLAIN_ERROR = "± is one standard deviation: 68 % of results lie within it.";

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

/** "a, b and c" */
export const inOneLine = (names: readonly string[]): string =>
  names.length < 2 ? names.join() : `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`;

/** "3 cards", "1 card" */
export const counted = (count: number, thing: string): string => `${count} ${thing}${count === 1 ? "" : "s"}`;

export const withCapital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
export const withSmall = (words: string): string => `${words.charAt(0).toLowerCase()}${words.slice(1)}`;

/** A whole sentence of words that begin one. */
export const wholeSentence = (words: string): string =>
  `${withCapital(words)}${/[.!?]$/.test(words) ? "" : "."}`;
