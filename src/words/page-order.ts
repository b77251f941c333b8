import { inLine } from "./text.ts";

/** The order of fitting as a row of tags. */
export const ORDER_PAGE = {
  title: "Order of fitting",
  close: "Close",
  stop: "Stop",
  checkAll: "Check all bars",
  find: "Find an order",
  print: "Print the order",
  progress: "Progress",
  tags: "Tags, in the order of fitting",
  danger: "⚠ DANGER",
  findAgain: "Find an order again: the job changed during the search.",
} as const;

/** How the whole order is, in one line. */
export const ORDER_LINE = {
  none: "no bars yet",
  finding: (bar: string): string => `finding an order${bar === "" ? "" : `: taking out ${bar}`}`,
  checking: (done: number, of: number, bar: string): string =>
    `${checked(done, of)}${bar === "" ? "" : `; checking ${bar}`}`,
  unchecked: "not checked yet",
  part: (done: number, of: number, noes: string): string =>
    `${checked(done, of)}${noes === "" ? "" : `; ${noes}`}`,
  noes: (bad: number, of: number): string => `${bad} of ${of} ${bad === 1 ? "does" : "do"} not go in`,
  all: (of: number): string => `all ${of} go in`,
  sprung: (bars: number): string => `, ${bars} of them sprung`,
  byForce: (bars: number, most: number): string => `, ${bars} by over ${most} N: more than two hands`,
  byGap: (bars: number): string => `, ${bars} of them with a gap`,
} as const;

const checked = (done: number, of: number): string => `${done} of ${of} checked`;

/** One tag. */
export const TAG = {
  placeless: "has no place yet",
  unchecked: "not checked",
  noBody: "no body entered",
  weldBoth: (before: string): string => `weld A and B before ${before}`,
  weld: (end: "A" | "B", before: string): string => `weld ${end} before ${before}`,
  needs: {
    "body on": "set by the body, roof on",
    "roof off": "only with the roof off",
    either: "roof on or off",
  },
  moveLast: "Move it last",
  moveBefore: (bar: string): string => `Move it before ${bar}`,
} as const;

/** The tag of the bar in hand. */
export const TAG_IN_HAND = {
  label: (bar: string, n: number, of: number): string => `${bar}, number ${n} of ${of}`,
  numbered: (n: number, bar: string): string => `${n}. ${bar}`,
  twin: (bar: string): string => ` A pair with ${bar}.`,
  earlier: "Move earlier",
  later: "Move later",
  before: "Move before…",
  beforeBar: (n: number, bar: string): string => `Before ${n}. ${bar}`,
  last: "Last of all",
  place: (bar: string): string => `Place of ${bar} in the order`,
  roof: { either: "Roof on or off", "body on": "Body on", "roof off": "Roof off" },
  roofIs: {
    either: "it goes in past what is there then",
    "body on": "it is set by the body, roof and all",
    "roof off": "it goes in only with the roof off",
  },
  roofTitle: (bar: string): string => `Roof while ${bar} goes in`,
  check: "Check this bar",
  showWay: "Show its way in",
} as const;

/** What an edit of the order is called. */
export const ORDER_COMMANDS = {
  before: (bar: string, other: string): string => `move ${bar} before ${other}`,
  last: (bar: string): string => `move ${bar} last`,
  earlier: (bar: string): string => `move ${bar} one place earlier`,
  later: (bar: string): string => `move ${bar} one place later`,
  found: "use the order found",
  needs: (bar: string, needs: string): string => `${bar}: ${needs}`,
} as const;

/** An order that was found. */
export const FOUND = {
  label: "The order found",
  same: "The order found is the order here",
  title: "An order was found",
  all: (bars: number, sprung: number): string =>
    `All ${bars} go in${sprung > 0 ? `, ${sprung} of them sprung` : ""}.`,
  some: (bars: number, of: number): string => `${bars} of ${of} go in.`,
  untacked: (bar: string, others: readonly string[]): string =>
    others.length === 0
      ? `${bar}: leaving others untacked does not let it in, as far as was tried.`
      : `${bar} goes in while ${inLine(others)} ${others.length > 1 ? "are" : "is"} not tacked.`,
  use: "Use this order",
  ok: "OK",
  keep: "Keep the order here",
} as const;

/** What is not in the job yet, and the order is judged without. */
export const LACKS = {
  says: "Not entered yet, and not counted in what goes in or what a torch reaches:",
  enter: { torch: "Enter the torch", driver: "Enter the driver", body: "Enter panels and openings" },
} as const;

/** Whether the bar in hand goes in. */
export const GOES_IN = {
  placeless: "it has no place in the car yet",
  changed: "not checked since the last change",
  unchecked: "not checked in this order",
  was: (how: string): string => `Before the last change: ${how}.`,
  number: (n: number): string => `It is number ${n} in the order of fitting.`,
  numberPast: (n: number): string => `Number ${n} in the order of fitting, past what is tacked before it.`,
  free: "free",
  no: "no",
  byGap: (how: string): string => `With a gap at each joint: ${how}`,
  sprung: (force: string | undefined, how: string): string =>
    `Sprung${force === undefined ? "" : `, ${force}`}: ${how}`,
  touching: (how: string): string => `Touching: ${how}`,
  cureUnknown: "Whether another place in the order lets it in is not known yet.",
  cureNone: (searched: string): string => `No earlier place in this order lets it in (${searched}).`,
  cure: (cure: string): string => `${cure}, and it goes in.`,
} as const;

/** The way of a bar into its place. */
export const WAY_IN = {
  which: "which one goes in?",
  view: "The way in",
  panel: "Along the way",
  picture: (bar: string, left: string): string => `${bar} on its way in, ${left} to go`,
  slider: "Along the way, from outside to the seat",
  seated: "seated",
  isSeated: "Seated.",
  toGo: (left: string): string => `${left} to go`,
  turn: (angle: string | undefined): string => `Turn it${angle === undefined ? "" : ` ${angle}`}.`,
  go: (way: string, angle: string | undefined): string =>
    `${way}${angle === undefined ? "" : `, turning ${angle}`}.`,
  back: "Previous step",
  on: "Next step",
  comes: (from: string, through: readonly string[]): string =>
    `It comes in ${from}${through.length > 0 ? `, through ${inLine(through)}` : ""}.`,
  seen: "Seen from outside there, a little to the side.",
  closest: (clear: string, bar: string): string => `At its closest ${clear} clear of ${bar}.`,
  showClosest: "Show this place",
  check: "Check this bar",
  checking: "Checking…",
} as const;
