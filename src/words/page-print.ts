import { counted } from "./text.ts";

/** The page on which a print is put together and looked at. */
export const PRINT_PAGE = {
  title: "Print",
  back: "Back to the job",
  bars: "Bars",
  which: {
    hand: (label: string) => `In hand: ${label}`,
    marked: (count: number) => counted(count, "marked bar"),
    all: (count: number) => (count === 1 ? "The one bar" : `All ${count} bars`),
    none: "No bars",
  },
  ofBar: "Sheets of a bar",
  ofJob: "Sheets of the job",
  sheet: {
    bender: "Bender card or saw card",
    notcher: "Notcher card",
    "saw wraps": "Wraps for a hole saw or mill",
    "torch wraps": "Wraps for a torch or grinder",
    strip: "Mark strip",
    trestles: "Measuring plan for the trestles",
    overview: "Overview",
    order: "Order of fitting",
    measuring: "Measuring plan for the car",
    readings: "Reading list",
  },
  paper: "Paper",
  pages: (count: number) => counted(count, "page"),
  /** Beside the count of pages. */
  trueSize: (count: number, of: number) =>
    count === of
      ? "Print at 100 %, actual size: true size counts on every page."
      : `Print at 100 %, actual size: true size counts on ${counted(count, "page")}.`,
  isTrueSize: "true size",
  drawing: "Drawing the pages…",
  nothing: "Choose bars and sheets first: there is nothing to print.",
  noCard: (label: string) => `${label} has no card: give it a place first.`,
  noSheet: (label: string) => `${label} has none of the chosen sheets.`,
  preview: "Pages",
  page: (n: number, of: number, name: string) => `Page ${n} of ${of}: ${name}`,
  previous: "Previous page",
  next: "Next page",
  print: "Print",
  save: "Save PDF",
  ready: (pages: number) => `${counted(pages, "page")} ready.`,
  failed: (why: string) => `Try again: the drawing failed (${why}).`,
} as const;
