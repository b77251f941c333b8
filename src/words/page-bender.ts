/** The Bender station, step by step. */
export const BENDER_PAGE = {
  which: "which one is to be bent?",
  size: (od: string, wall: string, die: string | undefined): string =>
    `${od} × ${wall}${die === undefined ? "" : `, die ${die}`}`,
  finish: { bent: "Mark as bent", sawn: "Mark as sawn" },
  saw: "Saw to",
  net: (net: string, allowances: readonly string[]): string =>
    `Net length ${net}, long point to long point, before bending. ${
      allowances.length === 0 ? "No allowance" : `Allowance ${allowances.join(", ")}`
    }.`,
  allowance: (size: string, end: "A" | "B"): string => `${size} at end ${end}`,
  square: "Saw both ends square.",
  straight: "Go on to the notcher: a straight bar has no bends.",
  ends: (fed: string, tail: string): string => `Write ${fed} on the end fed first, ${tail} on the tail.`,
  mark: (bend: number): string => `Mark bend ${bend}`,
  measure: (end: string): string => `Measure from sawn end ${end}, never from another mark.`,
  turn: (bend: number): string => `Turn before bend ${bend}`,
  setMark: (bend: number): string => `Set mark ${bend} at the die's mark.`,
  first: (bend: number): string => `Set mark ${bend} at the die`,
  feed: (end: string): string =>
    `Feed end ${end} first, any way round. Scribe a line along the top of the tube.`,
  side: (side: "left" | "right"): string =>
    `Seen from behind the tail toward the die, it bends to your ${side}.`,
  set: (bend: number): string => `Bend ${bend}, angle to set`,
  reach: (bend: number): string => `Bend ${bend}, angle to reach`,
  springsBack: (to: string, error: string | undefined): string =>
    `Springs back to ${to}${error === undefined ? "" : `, ± ${error} from the test bends`}.`,
  oneAngle: "Stop short, measure and pull again: the die has one test angle only.",
  noTests: "Bend and measure until the angle finder reads this: the die has no test bends.",
  toTrestles: "Go to the trestles",
  toNotcher: "Go to the notcher",
  check: (bend: number): string => `Check bend ${bend}`,
} as const;

/** Under the pictures of the Bender. */
export const BENDER_PICTURES = {
  marks: (length: string, end: string, marks: readonly string[]): string =>
    [`The straight tube, ${length} long, end ${end} on the left.`, ...marks].join(" "),
  mark: (bend: number, at: string): string => `Bend ${bend} at ${at}.`,
  marksNote: "Not true size. Grey: tube taken up by a bend.",
  turn: "Dashed: before. Solid: after the turn. Seen from behind the tail, down toward the die.",
  bend: "Dashed: before. Solid: after the bend. Seen from behind the tail, down toward the die.",
  goes: (bend: number, side: "left" | "right"): string => `Bend ${bend} goes to your ${side}.`,
  clockSeen: "looking along the tube toward the die",
  now: "As it is now. Seen from behind the tail, down toward the die.",
} as const;

/** Sizes to read after a bend, and what was read. */
export const CHECK_SIZES = {
  read: "Read these sizes and enter what you read, for the trestles.",
  finder: (bend: number): string => `angle finder on both legs of bend ${bend}`,
  enter: "Enter reading",
  field: (size: string, typed: string | undefined): string => `${size}: ${typed ?? "enter reading"}`,
  within: (error: string): string => `Within ± ${error}.`,
  offBy: (size: string, kind: "angle" | "length" | "height", isMore: boolean): string => {
    const [more, less] = { angle: ["over", "under"], length: ["long", "short"], height: ["high", "low"] }[
      kind
    ];
    return `Off by ${size} (${isMore ? more : less})`;
  },
  usual: (off: string): string => `${off}, within twice its ±: usual for this shop.`,
  off: (off: string): string => `${off}: read it at the trestles.`,
  slip: (expected: string, slip: string): string =>
    `Check the unit: about ${expected} is expected. Was it ${slip}?`,
  not: (why: "next-bend" | "by-eye" | "other-side" | { readonly at: number }): string => {
    if (typeof why === "object")
      return `No field here: the trestles read it square across at bend ${why.at}.`;
    return {
      "next-bend": "Not kept: the next bend changes it. If it is off, read the angle of this bend.",
      "by-eye": "No ±: where the bend begins and ends is judged by eye. If it is off, read the angle.",
      "other-side": "No ± and no field: the trestles read this end from the other side of the bend.",
    }[why];
  },
} as const;
