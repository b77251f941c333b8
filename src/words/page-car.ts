import type { Writer } from "../core/findings/index.ts";
import { apart } from "./apart.ts";
import { pointWords } from "./car-places.ts";
import { counted, inLine, sayPercent } from "./text.ts";

/** The Car station and its parts. */
export const CAR = {
  parts: "At the car",
  part: { read: "Read", points: "Points", tacked: "Tacked", errors: "Errors", way: "Way in" },
  take: "Take a reading",
  seen: "The car",
  taken: "Readings",
  picture: "The car, as far as it is known",
  waitForBar: "Tap the point or the bar that held the tape.",
  waitForPoint: "Tap the point.",
  cancel: "Cancel",
  computing: "computing…",
  barAlone: "not counted: it measures the bar alone",
} as const;

/** Whether the readings agree, and the one to take next. */
export const AGREEMENT = {
  label: "Agreement of the readings",
  strike: "Strike out this reading",
  strikeOf: (reading: string): string => `Strike out this reading: ${reading}`,
  why: "does not fit the others",
  readNext: "Read next:",
  gains: (point: string, before: string, after: string): string =>
    `The error of ${pointWords(point)} goes from ± ${before} to ± ${after}.`,
  take: "Take this reading",
} as const;

/** The points of the job. */
export const POINTS = {
  label: "Points",
  add: "Add a point",
  mirrored: (points: readonly string[], advice: string): string =>
    `Read ${advice}: the place of ${inLine(points.map(pointWords))} could be mirrored.`,
  take: "Take this reading",
  none: "Set a datum first: three level marks. The first is the origin, the second ahead on the centre line, the third to the left. Readings find all other points from these.",
  datum: "Set a datum",
  datumCommand: "set a datum",
  second: "Second mark, ahead of the origin",
  third: "Third mark, left of the origin",
  state: {
    exact: "given, exact",
    given: "given, with an error",
    found: "found by readings",
    loose: "not found yet",
  },
  close: "Close",
  edit: "Edit its place",
  enter: "Enter its place",
  far: "more than 10 m",
  within: (size: string, hasRing: boolean): string =>
    `95 % within ${size}${hasRing ? " (the ring in the picture)" : ""}.`,
  worst: (way: string): string => `Largest error: ${way}.`,
  noReading: "No reading is on it.",
  few: (readings: number): string => `${counted(readings, "reading")} on it: too few.`,
  fix: "To find it, take one of these readings:",
  noFix: "First find points to read it from, or enter their places.",
  fields: (point: string): string => `point ${pointWords(point)}`,
} as const;

/** Which way a coordinate counts: positive, negative. */
export const AXES = [
  ["forward", "back"],
  ["left", "right"],
  ["up", "down"],
] as const;

/** Readings on a tacked bar. */
export const TACKED = {
  which: "which one is tacked?",
  outcome: "Result",
  heading: (bar: string): string => `${bar}, as tacked`,
  intro:
    "Take one to three readings on it: heights, distances from the centre plane, tapes. Places without a reading count as planned.",
  take: "Readings on the tacked bar",
  cards: "Cards",
  none: "Check the units and the side of the tape: no bar near the planned one gives these readings.",
  verdict: (bar: string, off: string): string => `${bar}: ${off}.`,
  use: "Use its measured place",
  kept: "All cards use its measured place.",
  commandUse: (bar: string): string => `${bar}: use its measured place`,
  undo: "Use its planned place",
  commandUndo: (bar: string): string => `${bar}: use its planned place`,
  mark: "Mark as tacked",
  command: (bar: string, reading: string): string => `${bar}: ${reading}`,
  waiting: "waiting: its point has no place yet",
  /** Whole sizes on both sides (mm). */
  again(off: string, read: number, allowed: number, { length, finer }: Writer): string {
    const [was, is] = apart([read, allowed], length, finer?.length);
    return `${off}. Read it again: it was read ${was}, the shop's usual errors allow about ${is}`;
  },
  first: "Keep a reading to see what it changes.",
  moved: (size: string, way: string): string => `${size} ${way}`.trim(),
  distance: "Distance from its planned place",
  place: (i: number, of: number): string =>
    i === 0 ? "end A" : i === of - 1 ? "end B" : `corner of bend ${i}`,
} as const;

/** Which way a reading differs from the plan, by its kind: more, less. */
const WAYS: Readonly<Record<string, readonly [string, string]>> = {
  height: ["higher", "lower"],
  fore: ["farther forward", "farther back"],
  out: ["farther left", "farther right"],
};

/** How a reading differs from the plan (mm): "4.0 mm higher than planned". */
export function sayOffPlan(off: number, kind: string, length: (mm: number) => string): string {
  if (Math.abs(off) < 0.05) return "as planned";
  const [more, less] = WAYS[kind] ?? ["longer", "shorter"];
  return `${length(Math.abs(off))} ${off > 0 ? more : less} than planned`;
}

/** What each bar may be off by. */
export const ERRORS = {
  title: "Expected error of each bar",
  intro:
    "From the errors of this shop's marks, bends, turns and dies, and of the measured places. End A is held in its place.",
  calculate: "Calculate",
  recalculate: "Recalculate",
  begin: "the job",
  progress: (share: number, at: string): string => `${sayPercent(share)}: ${at}`,
  bar: "Progress",
  stop: "Stop",
  stopped: "Stopped.",
  failed: (why: string): string => `Not calculated: ${why}.`,
  changed: "Recalculate: the job has changed since.",
  foot: "the foot",
  endB: "end B",
  ofLength: (error: string): string => `Its net length: ± ${error}.`,
  allow: (A: string, B: string): string =>
    `For the length, leave an allowance of ${A} at end A or ${B} at end B`,
  now: (A: string, B: string): string => ` (now ${A} and ${B})`,
} as const;
