import type { Progress } from "../core/job/types.ts";
import { counted } from "./text.ts";

/** The rail of bars: what is fetched when it is asked for. */
export const RAIL_SORTS = {
  title: "Sort the bars",
  job: "As in the job",
  order: "Order of fitting",
  progress: "Progress",
  place: "Place in the car",
  more: {
    job: "as they were entered",
    order: "which bar goes in before which",
    progress: "laid out first, welded last",
    place: "front to rear, left to right, low to high",
  },
  /** Headings among the bars. */
  groups: {
    front: "Front",
    middle: "Middle",
    rear: "Rear",
    without: "No place yet",
    byHost: "By what they land on",
  },
  notInJob: "The job has no order yet: each bar comes after what it lands on.",
  partInJob: (left: number): string => `${counted(left, "bar")} not in the job's order: at the end.`,
  openOrder: "Order of fitting",
} as const;

export const RAIL_MARKING = {
  region: "Marked bars",
  all: "Mark all",
  found: "Mark all found",
  none: "Mark none",
  print: "Print…",
  done: "Mark done…",
  doneTitle: (bars: number): string => `Mark done: ${counted(bars, "bar")}`,
  /** The step's name under Undo. */
  step: (bars: number, progress: Progress): string => `${counted(bars, "bar")}: ${progress}`,
  left: (bars: string): string => `Left as they are: ${bars}.`,
  why: {
    noPlace: "no place yet",
    already: (progress: Progress): string => `already ${progress}`,
    straight: "no bends",
    notches: (end: "A" | "B", cuts: number): string =>
      `end ${end} has ${cuts} notches, mark it at the Notcher`,
  },
  one: (bar: string, why: string): string => `${bar} (${why})`,
} as const;
