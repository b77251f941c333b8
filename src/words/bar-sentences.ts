import { small } from "./text.ts";

/** A bar as sentences, node by node; each value and name in them is a button with a label of its own. */

/** What the sides of the car's axes are called: x forward, y left, z up. */
export const SIDES = { x: ["forward", "back"], y: ["left", "right"], z: ["up", "down"] } as const;

/** Along a host, from either of its ends. */
export const ALONG_SIDES = ["from its end A", "from its end B"] as const;

export const NOT_SET = "not set";

const way = (sides: readonly [string, string]): string => sides.join(" or ");

export const nodeTitle = (i: number, count: number): string =>
  i === 0 ? "End A" : i === count - 1 ? "End B" : `Corner ${i}`;
/** The same within a sentence: "end A", "corner 2". */
export const nodeWords = (i: number, count: number): string => small(nodeTitle(i, count));

export const NODE = {
  coordinate: (who: string, sides: readonly [string, string]) => `${who}: distance ${way(sides)}`,
  at: "at",
  step: "from the one before:",
  point: "at point",
  fromPoint: "and from there",
  whichPoint: (who: string) => `${who}: which point`,
  plate: "stands on plate",
  whichPlate: (who: string) => `${who}: which plate`,
  lands: "lands on",
  whichHost: (who: string) => `${who}: lands on which bar`,
  along: (who: string, host: string) => `${who}: distance along ${host}`,
  side: (who: string, host: string) => `${who}: which side of ${host}`,
  onlyPlace: "the only place",
  nearPlace: "nearest to a place",
  nearTo: (who: string) => `${who}, the place nearest`,
  towardWhat: (who: string) => `${who}: nearest to what`,
  towardTo: (who: string) => `${who}, target place`,
  onHost: (who: string, sides: readonly [string, string], host: string) =>
    `${who}: distance ${way(sides)}, on ${host}`,
  toward: "at its place nearest",
  towardPoint: (point: string) => `point ${point}`,
  towardLanding: (host: string) => `a landing on ${host}`,
  towardPlace: "a place",
  off: "moved off it",
  offBy: (who: string) => `${who}, moved off its host`,
  crowd: (who: string) => `${who} is also notched to fit`,
  beside: (who: string) => `${who}, beside its host`,
} as const;

/** The ways in which a node can be placed, as they are offered. */
export const NODE_WAYS = {
  height: "lands on a bar, at a height",
  along: "lands on a bar, at a distance along it",
  heightNear: "lands on a bar, at a height, nearest to here",
  toward: "lands on a bar, nearest to a place or point",
  forward: "lands on a bar, at a distance forward",
  left: "lands on a bar, at a distance left",
  plate: "stands on a plate",
  place: "at a place in the car",
  point: "at a measured point",
  step: "at a distance from the one before",
} as const;

export const BAR = {
  mirrorOf: "mirrors",
  mirrorWhich: "Mirror of which bar",
  mirrored: (original: string) => `across the centre plane: change ${original}, and this bar follows`,
  tube: "Tube",
  die: "die",
  whichDie: "Die",
  noDie: "none",
  fedFirst: "fed first: end",
  whichFedFirst: "End fed first",
  follows: "Follows",
  followsWhich: "Follows which bar",
  outside: "outside to outside",
  gap: "Gap, outside to outside",
  onSide: "on the",
  side: "Side that it follows on",
  fromStart: "its start",
  toEnd: "its end",
  toward: "toward a direction",
  way: (way: string) => `toward ${way === "left" || way === "right" ? `the ${way}` : way}`,
  from: "from",
  to: "to",
  followsFrom: "Start of following, along the bar followed",
  followsTo: "End of following, along the bar followed",
  allowance: "Allowance at end A",
  allowanceB: "at end B",
  allowanceAt: (end: string) => `Allowance at end ${end}`,
  shopAllowance: "as the shop's",
  noAllowance: "none",
} as const;

/** What is chosen from a list. */
export const CHOICES = {
  straight: "none: a straight bar",
  end: (end: string) => `end ${end}`,
  plane: { z: "at a height", x: "at a distance forward", y: "at a distance left" },
} as const;

/** A change of one value, for undo. */
export const SENTENCE = {
  step: (bar: string, label: string, value: string) => `${bar}: ${small(label)} ${value}`,
  none: "none",
  more: (what: string) => `More for ${what}`,
  value: (label: string, value: string) => `${label}: ${value}`,
  sided: (size: string, side: string) => `${size} ${side}`,
} as const;
