import type { ShopWriter } from "../core/units/index.ts";
import { apart } from "./apart.ts";
import { counted, small } from "./text.ts";

/** The wall: the cage, the bar in hand, its questions, and what the last change moved. */

export const WALL = {
  cage: "The cage",
  picture: (bars: number) => `The cage, ${counted(bars, "bar")}`,
  when: (bar: string) => `When ${bar} goes in`,
  tapHost: (node: string, bar: string) => `Tap the place where ${node} of ${bar} lands.`,
  cancel: "Cancel",
  lands: (bar: string, node: string, host: string) => `${bar}: ${node} lands on ${host}`,
  bar: "The bar in hand",
  job: "The job",
  noBar: "No bar in hand",
  takeOne: "Tap one in the picture or in the list of bars, or tap Find.",
  create: "New bar",
  opening: "One moment…",
} as const;

/** What became of one bar (blanks: net lengths in mm). */
export interface MovedBar {
  readonly how: "changed" | "ends" | "stands" | "new" | "gone" | "without";
  readonly before?: number;
  readonly after?: number;
}

export const MOVED = {
  region: "What the last change moved",
  count: (bars: number) =>
    bars === 0 ? "The last change moved no bar" : `The last change moved ${counted(bars, "bar")}`,
  /** `isMoveSaid`: behind how far it moved, which is not said again. */
  bar({ how, before = 0, after = 0 }: MovedBar, write: ShopWriter, isMoveSaid = false): string {
    if (how === "gone") return "deleted";
    if (how === "without") return "has no place now";
    if (how === "new") return `new, net length ${write.length(after)}`;
    if (how === "stands")
      return `${isMoveSaid ? "" : "moved; "}marks and ends as before, net length ${write.length(after)}`;
    if (how === "ends") return `net length as before, ${write.length(after)}; marks or ends changed`;
    const by = after - before;
    const [was, is] = apart([before, after], write.length, write.finer?.length);
    return `net length ${was} → ${is}, ${write.fine(Math.abs(by))} ${by > 0 ? "longer" : "shorter"}`;
  },
} as const;

/** What the last change did, over the picture, and bar by bar. */
export const CHANGE_BAND = {
  region: "The last change",
  others: "Another device",
  count: (bars: number, made: number): string => {
    const first = `${counted(bars, "bar")} ${bars === 1 ? "changes" : "change"}`;
    if (made === 0) return first;
    return made === bars ? `${first}, made already` : `${first}, ${made} of them made already`;
  },
  each: "Show each",
  undo: "Undo",
  close: "Close",
  of: (n: number, bars: number): string => `Bar ${n} of ${bars}`,
  moved: (by: string): string => `moved ${by}`,
  before: "The bar before",
  next: "The next bar",
  done: "Done",
} as const;

export const QUESTIONS = {
  long: "How long?",
  sawn: "saw square to this",
  wanted: "Wanted now: ",
  wasSawn: "it was sawn to this",
  wasBent: (count: number, end: string) => `it was bent at ${counted(count, "mark")}, from sawn end ${end}`,
  lengths: (v: { net: number; a: number; b: number; centre: number }, { length }: ShopWriter) =>
    `Net length ${length(v.net)}, long point to long point. Allowance ${length(v.a)} at end A, ${length(v.b)} at end B. Landing to landing along the centreline ${length(v.centre)}.`,
  mark: "Where do I mark?",
  first: (count: number, end: string) => `first of ${counted(count, "mark")}, from sawn end ${end}`,
  marks: (marks: readonly (readonly [bend: number, mm: number])[], end: string, { length }: ShopWriter) =>
    `${marks.map(([n, mm]) => `Bend ${n}: ${length(mm)}`).join(", ")}; all from sawn end ${end}.`,
  noBends: "no bends",
  straight: "a straight bar",
  nothingToMark: "Mark the notches at the notcher: a straight bar has no marks for the bender.",
  next: "What do I cut next?",
  wrap: "wrap",
  square: "square",
  allCut: "all cut",
  computing: "…",
  nextStep: (end: string, does: string) => `end ${end}: ${small(does)}`,
  done: "both ends are done",
  goesIn: "Will it go in?",
  look: "Check whether it goes in",
  noCard: "Mend what is listed below: this bar has no card yet.",
  waiting: "Computing…",
} as const;

/** The four answers behind the name of the bar that is pointed at. */
export const IN_ONE_LINE = (long: string, mark: string, next: string, goesIn: string): string =>
  ` · saw to ${long} · mark ${mark} · cut next: ${next} · goes in: ${goesIn}`;
