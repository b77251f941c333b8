import type { End } from "../core/job/types.ts";
import type { ShopWriter } from "../core/units/index.ts";
import { apart } from "./apart.ts";

/**
 * The steps at the notcher, one end at a time. Lengths in mm, angles in degrees; `clock` is a place round the tube in
 * words ("79.0° counter-clockwise from the zero line"), `zeroLine` which line that is.
 */

/** Offsets less than this are none (mm). */
export const NO_OFFSET = 0.005;

const onto = (end: End, host: string): string => `End ${end} onto ${host}.`;

/** Where a hole's centre is from the sawn end; a hole saw that starts beyond it has no tube under its middle. */
export const fromSawn = (mm: number, end: End, { length }: ShopWriter): string =>
  mm >= 0
    ? `${length(mm)} from sawn end ${end}, on the tube`
    : `${length(-mm)} beyond sawn end ${end}, off the tube`;

const offset = (mm: number, { fine }: ShopWriter): string =>
  Math.abs(mm) < NO_OFFSET
    ? ""
    : ` Hole saw off the tube's centre: ${fine(Math.abs(mm))}, toward the side 90° ${mm > 0 ? "counter-clockwise" : "clockwise"} of the heel.`;

const zero = (zeroLine: string): string => `Zero line: ${zeroLine}.`;
const stillOpen = (arcs: string): string => `The rim stays open at ${arcs} from the zero line.`;

/** What each step does: its headline. */
export const NOTCHER_STEPS = {
  square: "Saw square",
  flat: "Saw flat, off square",
  holeSaw: "Hole saw, outside Ø",
  turn: "Turn the tube: clock of the heel",
  offset: "Set the hole saw off centre",
  cut: (n: number, count: number) => (count === 1 ? "Cut, off square" : `Cut ${n} of ${count}, off square`),
  cutFor: (host: string) => `Cut for ${host}`,
  gap: "Gap round the joint",
  wrap: "Use the wrap",
  close: "Close the wrap round the tube",
  scribe: "Scribe along the wrap's edge",
  toLine: "Cut to the line",
} as const;

/** The figure of the last step where it is no length. */
export const GAP_FIGURE = { none: "none", part: "part open" } as const;

export const NOTCHER_SAYS = {
  free: (end: End) => `End ${end} lands on no bar: square to the tube all round.`,
  onPlate: (end: End) => `End ${end} stands on its plate: square to the tube all round.`,
  leaning: (clock: string, round: string) =>
    `Long point ${clock}, looking at the cut end: ${round} round the tube.`,
  longToShort: (mm: number, zeroLine: string, { length }: ShopWriter) =>
    `Long point to short point, along the tube: ${length(mm)}. ${zero(zeroLine)}`,
  seat: (end: End, host: string, is: "exact" | "flush" | "near") =>
    `${onto(end, host)} ${is === "exact" ? "One cut makes the seat exactly." : is === "flush" ? "One cut seats all of the rim that meets the host." : "One cut comes this near and no nearer."}`,
  turn: (way: "clockwise" | "counter-clockwise", round: string) =>
    `${way === "clockwise" ? "Clockwise" : "Counter-clockwise"} from the zero line, looking at the cut end: ${round} round the tube.`,
  zero: (zeroLine: string, isSquare: boolean) =>
    `${zero(zeroLine)}${isSquare ? " The cut is square: either side of the hole saw's axis is right." : ""}`,
  offset: (mm: number, write: ShopWriter) => offset(mm, write).trim(),
  hole: (fromEnd: string, outboard: number | undefined, { length }: ShopWriter) =>
    `Hole centre ${fromEnd}${outboard === undefined ? "" : `: ${length(outboard)} outboard of the final hole`}.`,
  final: (gap: { exact: boolean; open?: string; mm: number; at: number }, { fine, angle }: ShopWriter) =>
    gap.exact
      ? "This is the final cut: it seats all round."
      : gap.open !== undefined
        ? `This is the final cut: it seats where the rim meets the host, and stays open at ${gap.open}.`
        : `This is the final cut: unfiled, a gap of ${fine(gap.mm)} at ${angle(gap.at)}.`,
  between: (off: number, gap: number, side: string, { fine }: ShopWriter) =>
    `Pushed home, the bar is ${fine(off)} short of its seat; gap ${fine(gap)} at the ${side}, square to the host.`,
  start: (helps: boolean) =>
    helps ? "Start shallow and deepen: it helps here." : "Starting shallow saves little here.",
  range: (from: number, to: number, extra: number, { angle, fine }: ShopWriter) =>
    ` Add ${fine(extra)} to the allowance if the angle is only known to be ${angle(from)} to ${angle(to)}.`,
  seated: "Seated on every line round the tube.",
  flush: "No gap where the rim meets the host.",
  unfiled: (off: number, most: number, at: number, { fine, angle }: ShopWriter) =>
    `Unfiled and pushed home, the bar is ${fine(off)} short of its seat. Metal to file where it touches: at most ${fine(most)}, at ${angle(at)}.`,
  open: stillOpen,
  byGap(host: string, gap: number, at: number, accepted: number, { fine, finer, angle }: ShopWriter): string {
    const [has, most] = apart([gap, accepted], fine, finer?.length);
    return `Onto ${host}: the best cut of a hole saw has a gap of ${has} at ${angle(at)}; accepted is ${most}.`;
  },
  noSaw: (host: string, why: string) => `Onto ${host}: ${why}.`,
  close: (zeroLine: string) =>
    `Lay its line 0° on the zero line (${zeroLine}), printed face out. Close 360 on 0.`,
  base: "Set its base line where the words on the wrap say.",
  scribe: "Scribe right round, then take the paper off: it burns.",
  byHand: "Use a grinder, torch or saw blade, then file to the line.",
  rough: (diameter: number, off: number, { size, angle }: ShopWriter) =>
    `Rough out with a hole saw Ø ${size(diameter)}, ${angle(off)} off square.`,
  roughAt: (clock: string, fromEnd: string, mm: number, write: ShopWriter) =>
    `Heel ${clock}; hole centre ${fromEnd}.${offset(mm, write)}`,
  toFile: (most: number, { fine }: ShopWriter) => `Metal to file: up to ${fine(most)}.`,
  crowd: (diameter: number, clock: string, { size }: ShopWriter) =>
    `Off square, hole saw ${size(diameter)}, heel ${clock}.`,
  crowdHole: (fromEnd: string, mm: number, write: ShopWriter) =>
    `Hole centre ${fromEnd}.${offset(mm, write)}`,
  crowdHow: (zeroLine: string) =>
    `${zero(zeroLine)} Cut once for each host, in any order, or use the wrap instead.`,
} as const;

/** How the heels of both ends are to each other, looking from A toward B. */
export const HEELS = {
  line: "End B's heel is in line with end A's.",
  opposite: "End B's heel is opposite end A's.",
  turned: (deg: number, way: string, round: string, { angle }: ShopWriter) =>
    `End B's heel is ${angle(deg)} ${way} of end A's, looking from A toward B: ${round} round the tube.`,
  squareLine: "Both notches are in line: half a turn leaves a square notch as it was.",
  squareTurned: (deg: number, way: string, round: string, { angle }: ShopWriter) =>
    `End B's notch is ${angle(deg)} ${way} of end A's, looking from A toward B: ${round} round the tube.`,
} as const;
