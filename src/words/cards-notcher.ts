import type { ShopWriter } from "../core/units/index.ts";
import { apart } from "./apart.ts";

/** The notcher card. */
export const NOTCHER_CARD = {
  title: (label: string): string => `Notcher card — ${label}`,
  document: "Notcher card",
  heelAndToe: "Heel: the sharp-angle side of a notch. Toe: the blunt-angle side.",
  sides: { heel: "HEEL", toe: "toe", long: "long" },
  endSquare: (end: string): string => `End ${end} — sawn square`,
  endOnto: (end: string, hosts: string): string => `End ${end} — onto ${hosts}`,
  sawAngle: "SAW ANGLE",
  square: "square",
  squareBelow: "square to the tube all round; no clock",
  offSquare: "off square",
  longClock: "CLOCK OF THE LONG POINT",
  longBelow: (way: string, round: string): string =>
    `${way}, looking at the cut end: ${round} round the tube`,
  flat: (along: string, fromSawn: string): string =>
    `Long point to short point, along the tube: ${along}. The long point is ${fromSawn} in from the sawn end.`,
  zero: (zero: string, half: string): string => `Zero line: ${zero}. Opposite side: ${half}.`,
  way: (positive: boolean): string =>
    positive ? "counter-clockwise from the zero line" : "clockwise from the zero line",
  saw: "HOLE SAW, OUTSIDE Ø",
  sawBelow: {
    exact: "one cut seats exactly",
    flush: "one cut seats all of the rim that meets the host",
    nearest: "the closest that one cut comes",
  },
  angle: "NOTCH ANGLE",
  clock: "CLOCK OF THE HEEL",
  clockBelow: (way: string, round: string, square: boolean): string =>
    `${way}, looking at the cut end: ${round} round the tube${
      square ? "; the hole saw is square to the tube: use either side of its axis" : ""
    }`,
  hole: "HOLE CENTRE",
  offset: "SIDE OFFSET OF THE HOLE SAW",
  noOffset: "none",
  noOffsetBelow: "the hole saw's axis passes through the tube's axis",
  offsetBelow: (counterClockwise: boolean, clock: string): string =>
    `move the hole saw toward the side 90° ${counterClockwise ? "counter-clockwise" : "clockwise"} of the heel: ${clock}${
      clock.includes("zero line") ? "" : " from the zero line"
    }`,
  noCut: "NO SINGLE HOLE SAW CUT",
  useWrap: "use the wrap",
  ends: "End B against end A",
} as const;

/** Said first and large where no hole saw cut will do. */
export const sayUseWrap = (why: string, orCuts: boolean): string =>
  `USE THE WRAP${orCuts ? ", OR ONE CUT FOR EACH HOST BELOW" : ""} — ${why}`;

export function sayTooWide(
  { gap, gapAt }: { readonly gap: number; readonly gapAt: number },
  accepted: number,
  single: boolean,
  { fine, finer, angle }: ShopWriter,
): string {
  const [has, most] = apart([gap, accepted], fine, finer?.length);
  return `the best ${single ? "single " : ""}hole saw cut leaves a gap of ${has} at ${angle(gapAt)}; accepted: ${most}`;
}

/** The steps of a cut by its wrap; `trueSize` is how a wrap is printed. */
export const wrapSteps = (trueSize: string, zero: string): readonly string[] => [
  trueSize,
  `Lay line 0° of the wrap on the zero line (${zero}), printed face out. Close 360 on 0.`,
  "Scribe along the cut edge, take the paper off, cut to the line and file.",
];

export const sayRoughOut = (most: string, at: string): string =>
  `Rough out with this one hole saw cut: it stays inside the final shape. Metal to file after it: up to ${most}, at ${at}.`;

/** Where the hole's centre is: `beyond` the long point and `sawn` from the sawn end, sizes with their side. */
export function sayHole(w: {
  readonly beyond: "on" | "out" | "in";
  readonly sawn: string;
  readonly offTube: boolean;
  readonly bend: string | undefined;
}): string {
  const where = {
    on: "on the long point",
    out: "beyond the long point, out in the waste",
    in: "in from the long point",
  }[w.beyond];
  const sawn = w.offTube
    ? `${w.sawn} off the sawn end: leave more allowance`
    : `${w.sawn} in from the sawn end`;
  return `${where}; ${sawn}${w.bend === undefined ? "" : `; ${w.bend} from the nearest bend`}`;
}

/** A crowded end: one exact cut for each host. */
export const CROWD = {
  columns: [
    "Host",
    "Hole saw Ø",
    "Off square",
    "Clock of the heel",
    "Side offset",
    "Hole centre from the sawn end",
  ],
  use: "Crowded end: make one exact cut for each host, in any order. ccw and cw: toward the side 90° counter-clockwise or clockwise of that heel, looking at the cut end.",
  offset: (size: string, counterClockwise: boolean): string => `${size} ${counterClockwise ? "ccw" : "cw"}`,
  noOffset: "none",
} as const;

export const sayMisses = (arcs: string, hosts: string): string =>
  `Misses: from ${arcs} the rim passes ${hosts} without touching. The joint stays open there. Clocks count from the zero line, counter-clockwise looking at the cut end.`;

export const sayGap = {
  exact: "Gap: none. This cut seats on every line round the tube.",
  flush: (arcs: string): string => `Gap: none where the rim meets the host. It stays open at ${arcs}.`,
  open: (short: string, most: string, at: string): string =>
    `Gap round the joint as sawn, unfiled: the bar stays ${short} short of its seat. Metal to file where it touches: at most ${most}, at ${at}.`,
  accepted: "accepted",
  greatest: (gap: string, at: string): string => `${gap} at ${at}`,
} as const;

/** The side of an end that is named when it is set against the other. */
export const END_SIDES = { notch: "heel", flat: "long point" } as const;

/** How the two ends are turned to each other; `turned` absent: `inLine` or opposite. */
export function sayEnds(w: {
  readonly a: string;
  readonly b: string;
  readonly turned:
    | "in line"
    | "opposite"
    | { readonly by: string; readonly way: string; readonly round: string };
  readonly bent: boolean;
}): string {
  const carried = w.bent ? " The line is carried along the bends without twist." : "";
  if (w.turned === "in line") return `End B's ${w.b} is in line with end A's ${w.a}.${carried}`;
  if (w.turned === "opposite") return `End B's ${w.b} is opposite end A's ${w.a}.${carried}`;
  const { by, way, round } = w.turned;
  return `Looking from A toward B, end B's ${w.b} is ${by} ${way} of end A's ${w.a} (${round} round the tube).${carried}`;
}

/** The cuts from a shallow first one to the final one. */
export const STEPS_OF_CUT = {
  title: "Toward the final angle: same hole saw, same clock; no cut goes outside the final shape",
  columns: [
    "Cut",
    "Off square",
    "Hole centre from sawn end",
    "Beyond the long point",
    "Outboard of the final hole",
    "Fit when pushed home",
  ],
  cut: (n: number, final: boolean): string => (final ? `${n} final` : `${n}`),
  offTube: (size: string): string => `${size} off it`,
  shortOf: (size: string): string => `${size} short of it`,
  finalHole: "final hole",
  seated: "seated",
  flush: "seated where the rim meets the host; the rest stays open",
  gapAbove: (gap: string, at: string): string => `the gap above: ${gap} at ${at}`,
  shows: (open: string, short: string, gap: string): string =>
    `${open === "heel" ? "touches at the toe, " : open === "toe" ? "touches at the heel, " : ""}${short} short of its seat, gap ${gap} at the ${open}`,
  holds: (fromSteeper: string, fromShallower: string): string =>
    `Start shallow and deepen. Coming back from 5° too steep loses ${fromSteeper} of length; deepening from 5° too shallow loses ${fromShallower}.`,
  fails: (fromShallower: string, fromSteeper: string, times: number): string =>
    `Start at the likeliest angle: starting shallow saves little here. 5° too shallow loses ${fromShallower}, 5° too steep ${fromSteeper}, less than ${times} times as much.`,
  range: (low: string, high: string, leave: string): string =>
    ` If the angle is only known from ${low} to ${high}, leave ${leave} of allowance at this end.`,
} as const;

/** Beside the picture of a cut end. */
export const END_PICTURE = {
  zero: "0 zero line ▼",
  seen: "looking at the cut end; not to scale",
  counted: "degrees count counter-clockwise",
} as const;
