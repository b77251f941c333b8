import { counted, sentence } from "./text.ts";

/** The bender card, and the saw card of a straight bar. */
export const BENDER = {
  title: (label: string, bent: boolean): string => `${bent ? "Bender card" : "Saw card"} — ${label}`,
  document: "Bender card",
  sawTo: "SAW TO",
  sawing: (net: string, A: string, B: string): string =>
    `Saw both ends square. Net length ${net}, long point to long point, before bending. Allowance ${A} at end A, ${B} at end B.`,
  fedFirst: "END FED FIRST",
  end: (end: string): string => `end ${end}`,
  tail: (end: string): string => `end ${end} is the tail`,
  die: "DIE",
  dieBelow: (clr: string, bends: number): string => `centreline radius ${clr}; ${counted(bends, "bend")}`,
  bends: "BENDS",
  straight: "none, straight bar",
  straightBelow: "Notch both ends as the notcher card says.",
  steps: "Bends, in the order of bending",
  mark: "MARK",
  fromSawn: (end: string): string => `from sawn end ${end}`,
  turn: (n: number): string => `TURN BEFORE BEND ${n}`,
  turning: sentence,
  firstBend: (side: string): string =>
    `First bend, no turn. Scribe a line along the top of the tube. The die bends to your ${side}.`,
  checks: (n: number): string => `After bend ${n} the tape must read:`,
  reach: "ANGLE TO REACH",
  reachBelow: "Die not calibrated: bend short, measure, and bend on until the angle finder reads this.",
  set: "SET",
  setBelow: (wanted: string, sd: string | undefined, oneAngle: boolean): string =>
    [
      `to get ${wanted}`,
      ...(sd === undefined ? [] : [`± ${sd}, from the test bends`]),
      ...(oneAngle ? ["from one test angle: stop short, measure, pull again"] : []),
    ].join("\n"),
  ownEnds: "Or turn the tube round for the second bend",
} as const;

/** Both bends marked from their own ends, the tube turned round between them. */
export const sayOwnEnds = (w: {
  readonly bend: number;
  readonly second: number;
  readonly mark: string;
  readonly secondMark: string;
  readonly end: string;
  readonly other: string;
  readonly points: string;
}): string =>
  `Mark bend ${w.bend}: ${w.mark} from sawn end ${w.end}. Mark bend ${w.second}: ${w.secondMark} from sawn end ${w.other}. ` +
  `Make bend ${w.bend} with end ${w.end} fed first. Then turn the tube round and feed end ${w.other} first. ` +
  `Looking along the tube toward the die, ${w.points}. The angles to set stay the same.`;

/** Below the straight tube with its marks. */
export const sayMarkedTube = (scale: string): string =>
  sentence(
    `${scale}, not true size. Grey: tube taken up by the bend. Dashed: long points, inside the allowance`,
  );

/** Below the bar as bent. */
export const sayFinishedBar = (
  bend: number,
  scale: string,
  tail: { readonly end: string; readonly rises: string } | undefined,
): string =>
  `Seen from above, bend ${bend} flat on the table, ${scale}. Angles are true.${
    tail
      ? ` End ${tail.end} rises toward you: its centre is ${tail.rises} above the plane of bend ${bend}.`
      : ""
  }`;

/** What an operator's view says beside its arrows. */
export const OPERATOR = {
  left: "L",
  right: "R",
  /** At the arrow to the side to which the bend of this step goes. */
  goes: (n: number): string => `bend ${n}`,
  seen: ["looking along the tube", "toward the die"],
} as const;

export const STRIP = {
  title: (label: string): string => `Mark strip — ${label}`,
  document: "Mark strip",
  use: (end: string): string =>
    `Cut the pieces out and lay join on join. Tape the strip along the tube from sawn end ${end}.`,
  set: (set: string, wanted: string): string => `set ${set} to get ${wanted}`,
  noSet: (wanted: string): string => `bend and measure: ${wanted}`,
  first: "first bend, no turn",
  piece: (bar: string, n: number, of: number, flushEnd: string | undefined): string =>
    `${bar} · strip, piece ${n} of ${of}${flushEnd ? ` · left edge flush with sawn end ${flushEnd}` : ""}`,
} as const;
