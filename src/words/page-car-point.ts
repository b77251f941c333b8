import { pointWords } from "./car-places.ts";
import { counted } from "./text.ts";

/** The point that is measured now: its readings in a row. */
export const POINT_IN_HAND = {
  region: "Point in hand",
  choose: "Choose the point to measure",
  another: "Change the point",
  none: "Or tap it in the picture.",
  /** What is known of it, above its readings. */
  known: (error: string): string => `Known to ± ${error}.`,
  exact: "Its place is given, exact.",
  loose: (readings: number): string =>
    readings === 0 ? "Not found yet: no readings." : `Not found yet: ${counted(readings, "reading")}.`,
  mirrored: "Its place could be mirrored.",
  list: "Read next, the most telling first",
  row: (n: number): string => (n === 1 ? "Take this reading" : `Take these ${n} in a row`),
  nothing: "Nothing to add here. Choose the next point.",
  noOthers: "Find other points first, or enter the place of this one.",
  waiting: "computing…",
  finds: "finds it",
  settles: "settles its side",
  gains: (before: string, after: string): string => `± ${before} → ± ${after}`,
  takenOff: "It is taken off every tape reading.",
  other: "Any other reading",
  nth: (i: number, n: number): string => `${i + 1} of ${n}`,
  skip: "Skip",
} as const;

/** What a reading should read, and where that comes from. */
export const WANTED = {
  planned: (size: string): string => `As planned: ${size}`,
  expected: (size: string): string => `As expected: ${size}`,
  mirror: (size: string, point: string): string => `As ${pointWords(point)}: ${size}`,
  take: (says: string, reading: string): string => `${says}. ${reading}`,
} as const;

/** A reading of one point without naming it: it is in hand. */
export function sayAtPoint(kind: string, other: string | undefined): string {
  switch (kind) {
    case "tape":
      return `Tape from ${other === undefined ? "…" : pointWords(other)}`;
    case "height":
      return "Height over the floor";
    case "out":
      return "Out from the centre plane";
    default:
      return "Forward of x = 0";
  }
}

/** The list from which a point is chosen or made. */
export const CHOOSE_POINT = {
  title: "Which point?",
  side: "Side of the car",
  sides: { left: "Left", centre: "Centre", right: "Right" },
  inJob: "In this job",
  places: (where: string): string => `New: ${where}`,
  isThere: "in the job",
  own: "Another name",
} as const;

/** Readings in the list, by the point that they are of. */
export const BY_POINT = {
  list: "Readings, the newest first",
  shell: "The shell",
  group: (name: string, readings: number): string => `${name}: ${counted(readings, "reading")}`,
  off: (n: number): string => `${n} ${n === 1 ? "does" : "do"} not fit`,
  struck: (n: number): string => `${n} struck out`,
  earlier: (points: number, readings: number): string =>
    `Earlier: ${counted(readings, "reading")} at ${counted(points, "other place")}`,
} as const;

/** Before anything is measured: what is out of the car, how it is supported, gaps round its doors. */
export const SET_UP_PAGE = {
  title: "Before measuring",
  button: (done: number, of: number): string => `Before measuring: ${done} of ${of} done`,
  allDone: "Before measuring: all done",
  moved: (n: number): string => `${counted(n, "door gap")} changed`,
  intro:
    "Tick what is done. Weight and parts left in move the shell; what is measured then is not the bare car.",
  list: "Out of the car, and how it is supported",
  done: {
    battery: "Battery out",
    tank: "Fuel tank out, lines capped",
    seats: "Seats out",
    interior: "Interior and carpet out",
    glass: "Glass out, where it is in the way",
    supports: "Supported under its own suspension points",
    level: "Level, side to side and front to rear",
  },
  gaps: "Door gaps",
  gapsWhy: (allowed: string): string =>
    `Read each gap before anything is out, and again on the supports. A change beyond ${allowed} means that the shell moved.`,
  gapsFrom: (sd: string): string => `Common practice, no source: one reading is taken as ± ${sd}.`,
  before: "Before",
  after: "After",
  at: "Place",
  change: "Change",
  read: "enter",
  add: "Add a door gap",
  ask: (when: string, place: string): string => `Gap, ${when}: ${place}`,
  name: "Place of the gap",
  usual: "Left door, lock side, top",
  commandTick: (what: string, isDone: boolean): string => `${isDone ? "tick" : "untick"}: ${what}`,
  commandGap: (place: string, when: string): string => `read the door gap ${when}: ${place}`,
  readAgain: "read again",
  needsBoth: "needs both",
} as const;

/** How a door gap changed (mm): "+0.50 mm"; what that means where it is more than its readings are good for. */
export function sayDoorGap(change: number, moved: boolean, fine: (mm: number) => string): string {
  if (change === 0) return "as before";
  const by = `${change > 0 ? "+" : "−"}${fine(Math.abs(change))}`;
  return moved ? `${by}: the shell moved` : by;
}
