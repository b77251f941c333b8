import { counted } from "./text.ts";

/** Names of the steps that undo and redo take back, and why a command is refused. */

/** How a bar needs a thing: a closed list. */
export type Need = "on" | "coped" | "toward" | "follow" | "mirror" | "plate" | "point" | "use";

const NEEDS: Readonly<Record<Need, string>> = {
  on: "lands on it",
  coped: "is notched to it",
  toward: "runs toward it",
  follow: "follows it",
  mirror: "is its mirror",
  plate: "stands on it",
  point: "is measured from it",
  use: "uses it",
};

export const needs = (how: Need): string => NEEDS[how];

export const STEP = {
  addBar: (bar: string) => `add ${bar}`,
  add: (kind: string, id: string) => `add ${kind} ${id}`,
  change: (kind: string, id: string) => `change ${kind} ${id}`,
  changeBar: (bar: string) => `change ${bar}`,
  rename: (kind: string, from: string, to: string) => `rename ${kind} ${from} to ${to}`,
  delete: (kind: string, id: string) => `delete ${kind} ${id}`,
  deleteBar: (bar: string, withOthers: boolean) =>
    withOthers ? `delete ${bar} and the bars that need it` : `delete ${bar}`,
  duplicate: (bar: string) => `duplicate ${bar}`,
  mirror: (bar: string) => `mirror ${bar}`,
  progress: (bar: string, progress: string) => `${bar}: ${progress}`,
  notchedEnd: (bar: string, end: string) => `${bar}: end ${end} notched`,
  throwAway: (bar: string) => `make ${bar} again`,
  set: (place: string) => `set ${place}`,
  nameJob: (name: string) => `name the job ${name}`,
  mm: "show millimetres",
  inches: (fraction: number | undefined) =>
    fraction === undefined ? "show inches" : `show inches in 1/${fraction}`,
  issue: "issue cards",
  strike: "strike a reading",
  unstrike: "use a struck reading again",
  undo: "undo",
  redo: "redo",
} as const;

/** Why a command is refused; `place` is where in the job's file, for what no page asks for. */
export const REFUSED = {
  isMirror: (bar: string, original: string) => `mirror ${original} instead: ${bar} is its mirror`,
  hasMirror: (bar: string, twin: string) => `${bar} has a mirror already: ${twin}`,
  needed: (what: string, by: readonly (readonly [bar: string, how: Need])[]) =>
    `${what} is needed: ${by.map(([bar, how]) => `${bar} ${NEEDS[how]}`).join(", ")}`,
  noPlace: (bar: string) =>
    `mend ${bar} first: it has no place in the car yet, and cannot be kept where it is`,
  moveOriginal: (bar: string, original: string) =>
    `move ${original}, and ${bar} follows: ${bar} is its mirror`,
  noPath: (bar: string) => `${bar} has no path to move`,
  onOthers: (bar: string) =>
    `move its hosts or plates, or change its landings: ${bar} is on other bars or on plates that others share`,
  taken: (place: string, kind: string) => `${place}: choose another name; a ${kind} has this one`,
  named: (place: string, kind: string, id: string) =>
    `take ${kind} ${id} out of ${place} first: it is named there`,
  missing: (place: string, kind: string, id: string) => `${place}: no ${kind} is called "${id}"`,
  marks: "change it on another device: this one shows the job and marks progress",
  notJudged: "try it again: its effect on the bars that are made was not computed",
  noReading: (n: number) => `there is no reading ${n} here now`,
  noList: (place: string, step: number) => `${place}: no list is here, and it has no entry ${step}`,
  short: (place: string, entries: number, step: number) =>
    `${place}: the list has ${counted(entries, "entry", "entries")}; there is no place ${step} in it`,
  noObject: (place: string, key: string) => `${place}: no object is here, and it has no ${key}`,
} as const;
