import type { ShopWriter } from "../core/units/index.ts";
import { apart } from "./apart.ts";

/** The notcher's page: its head, its pictures, and the gaps read round a joint. */
export const NOTCHER = {
  question: "which bar is notched?",
  computing: "Computing both ends…",
  done: (bar: string) => `Mark ${bar} notched`,
  title: (bar: string, end: string) => `${bar}, end ${end}`,
  which: "Which end",
  end: (end: string) => `End ${end}`,
  print: "Print or save",
  gaps: "Read the gaps",
  card: "Notcher card",
  wrap: (end: string) => `Wrap, end ${end}`,
  wrapPicture: (end: string) => `Wrap of end ${end}; true to size on paper only`,
  toEnd: (end: string) => `Go to end ${end}`,
  toWall: "Go to the wall",
  drawing: "Drawing the wrap…",
  noWrap: "This end needs no wrap.",
} as const;

export const CLOCK = {
  heel: "heel",
  long: "long point",
  label: (at: { name: string; deg: number; counter: boolean } | undefined, { angle }: ShopWriter) =>
    `The cut end, its zero line on top${at === undefined ? "" : `; the ${at.name} ${angle(at.deg)} ${at.counter ? "counter-clockwise" : "clockwise"}`}`,
  zero: "0 zero line",
  caption: (zeroLine: string) => `Looking at the cut end; not to scale. Zero line: ${zeroLine}.`,
} as const;

export const GAP = {
  label(v: { most: number; at: number; accepted: number }, { fine, finer, angle }: ShopWriter): string {
    const [most, accepted] = apart([v.most, v.accepted], fine, finer?.length);
    return `Gap round the joint: most ${most} at ${angle(v.at)}; accepted ${accepted}`;
  },
  accepted: "accepted",
  at: (mm: number, deg: number, { fine, angle }: ShopWriter) => `${fine(mm)} at ${angle(deg)}`,
  caption: "Gap round the joint as sawn, unrolled from the zero line.",
} as const;

export const RING = {
  label: (marks: readonly (readonly [deg: number, read: string])[]) =>
    `Marks round the joint. ${marks.map(([deg, read]) => `${deg}°: ${read}`).join(", ")}`,
  heel: "heel",
  caption: "looking at the cut end, zero line up",
  none: "–",
} as const;

export const GAPS = {
  title: (bar: string, end: string) => `Gaps: ${bar}, end ${end}`,
  how: "Push the bar home with the cut that is made. Measure the gap square to the host at marks round the tube; enter 0 where it touches. Eight marks give an answer and check it; four are enough where they are spread all round the tube.",
  made: "The cut that is made",
  cut: (n: number, deg: number, { angle }: ShopWriter) => `Cut ${n}: ${angle(deg)}`,
  other: "Another angle",
  cutAt: (deg: number, { angle }: ShopWriter) => `Cut at ${angle(deg)}`,
  marks: "Marks round the joint",
  heel: "heel",
  toe: "toe",
  mark: (deg: number, side: string) => `${deg}° ${side}`.trim(),
  next: "Next cut",
  few: "Read four gaps or more, spread all round, to get the next cut.",
  again(
    v: { at: number; read: number; others: number; leftOut: boolean },
    { angle, fine, finer }: ShopWriter,
  ): string {
    const [read, others] = apart([v.read, v.others], fine, finer?.length);
    return `Read the gap at ${angle(v.at)} again: it was ${read}, by the others it is ${others}${v.leftOut ? "; it is left out." : "."}`;
  },
  touchesNowhere: (nearest: number, { fine }: ShopWriter) =>
    `Push the bar home and read again: by these gaps it touches nowhere (nearest ${fine(nearest)}).`,
  noCheck: "Read eight gaps to have a check: four have none.",
  cutMade: "Mark that cut made",
  gap: (deg: number, side: string) => `Gap at ${deg}°${side === "" ? "" : `, the ${side}`}`,
  cutTitle: "Angle of the cut that is made, off square",
  noJoint: {
    "no bar": "Give this bar a place in the car first.",
    flat: "This end lands on no bar: a flat end needs no notch.",
    "no saw": "Cut this end to the wrap: no hole saw cut makes it.",
  },
  /** Names of steps, for undo. */
  cutStep: (bar: string, end: string, deg: number, { angle }: ShopWriter) =>
    `${bar}, end ${end}: cut at ${angle(deg)}`,
  gapStep: (bar: string, end: string, deg: number, read: string) =>
    `${bar}, end ${end}: gap at ${deg}° ${read}`,
  /** Why a gap that was read is struck. */
  readAgain: "read again",
  readBefore: (cut: number | undefined) =>
    cut === undefined ? "read before" : `read with the cut at ${cut}°`,
} as const;
