import type { Progress } from "../core/job/types.ts";
import type { MadeVerdict } from "../core/made/types.ts";
import { nameVerdict } from "./made.ts";

/** Pages around what is made: a change that touches it, the list of it, and making a bar again. */

const all = (labels: readonly string[]): string =>
  labels.length < 2 ? (labels[0] ?? "") : `${labels.slice(0, -1).join(", ")} and ${labels.at(-1)}`;

/** A change that waits, since bars that are made are touched by it. */
export const ASK_CHANGE = {
  title: "Check the bars that are made",
  change: (name: string): string => `The change: ${name}.`,
  list: "What the change does to bars that are made",
  left: (bars: readonly string[]): string => `If ${all(bars)} ${bars.length > 1 ? "stay" : "stays"} in place`,
  cutLoose: (bars: readonly string[]): string =>
    `If ${all(bars)} ${bars.length > 1 ? "are" : "is"} cut loose and moved`,
  judging: "One moment: the made bars are compared.",
  apply: "Apply the change",
  leave: (bars: readonly string[]): string => `Leave ${all(bars)} in place and apply`,
  loosen: (bars: readonly string[]): string => `Cut ${all(bars)} loose and apply`,
  cancel: "Cancel",
} as const;

/** The list of what a change did to bars that are made. */
export const MADE_LIST = {
  region: "What the last change did to bars that are made",
  count: (bars: number): string =>
    `The last change touched ${bars} ${bars === 1 ? "bar that is made" : "bars that are made"}`,
  step: (label: string, step: string): string => `${label}, ${step}`,
} as const;

/** How far a bar has come, where one end is notched before the other. */
export const COME_TO = {
  step: (progress: Progress, notched?: "A" | "B"): string =>
    notched ? `${progress}, end ${notched} notched` : progress,
  notched: (end: "A" | "B"): string => `end ${end} notched`,
} as const;

/** Bars of the rail that are not what is wanted now. */
export const NOT_AS_WANTED = {
  answer: (progress: Progress, verdict: MadeVerdict["verdict"]): string =>
    `${progress}: ${nameVerdict(verdict)}`,
  elsewhere: (progress: Progress): string => `${progress}, not as planned`,
} as const;

/** Making a bar again. */
export const MAKE_AGAIN = {
  button: "Make again",
  title: (bar: string): string => `Make ${bar} again?`,
  what: "Start again at the saw. What was made and read of this bar is kept in its past.",
  could: "What this bar could become",
  yes: "Make it again",
  cancel: "Cancel",
  searching: "One moment: the other bars and the rack are tried.",
  piece: (tube: string, n: string): string => `Piece ${n} of ${tube}`,
} as const;
