import type { Progress } from "../core/job/types.ts";
import { counted } from "./text.ts";

/** The rail of bars: what is on the first page. */
export const RAIL = {
  region: "Bars of the job",
  bars: "Bars",
  none: "No bars yet: lay out the first one",
  danger: (state: string): string => `DANGER, ${state}`,
  noPlace: "no place yet",
  check: (progress: Progress): string => `${progress}, check`,
  nothing: "No bar found",
  find: "Find a bar",
  findHint: "Find a bar  /",
  findIt: "Find",
  clear: "Clear the search",
  sort: "Sort",
  mark: "Mark several",
  endMarking: "End marking",
  box: (bar: string): string => `Mark ${bar}`,
  /** "36 bars · 12 sawn · 4 tacked · 3 to check": sawn and tacked count what is further too. */
  counts: (all: number, sawn: number, tacked: number, look: number): string =>
    [
      counted(all, "bar"),
      ...(sawn > 0 ? [`${sawn} sawn`] : []),
      ...(tacked > 0 ? [`${tacked} tacked`] : []),
      ...(look > 0 ? [`${look} to check`] : []),
    ].join(" · "),
  found: (found: number, all: number): string => `${found} of ${all} found`,
  marks: (marked: number): string => `${marked} marked`,
  marked: (marked: number, all: number): string => `${marked} marked of ${all}`,
  at: (n: number, of: number): string => `bar ${n} of ${of}`,
  previous: "Take the bar before",
  next: "Take the next bar",
} as const;

/** How the rail is sorted, on its button. */
export const SORTED = {
  job: "Job",
  order: "Fitting",
  progress: "Progress",
  place: "Place",
} as const;
