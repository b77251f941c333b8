import type { MadeVerdict } from "../core/made/types.ts";
import type { ShopWriter } from "../core/units/index.ts";
import { apart } from "./apart.ts";
import { sayEasings } from "./easing.ts";
import { capital, counted, inLine, sentence } from "./text.ts";

type Say = Pick<ShopWriter, "length" | "angle" | "fine" | "finer">;
const ENDS = ["A", "B"] as const;

/** What becomes of a bar that exists, in a word or two. */
export const nameVerdict = (verdict: MadeVerdict["verdict"]): string =>
  verdict === "unknown" ? "can't be told" : verdict;

/** What becomes of a bar that exists: first what to do, then why. Its label is said by whoever lists it. */
export function sayMade(v: MadeVerdict, write: Say): string {
  switch (v.reason) {
    case "serves":
      return `Still good${serving(v, write)}.`;
    case "long":
      return `Saw off the excess: there is ${left(v, write)}.`;
    case "eased":
      return sentence(sayEasings(v.ease ?? [], write));
    case "recut":
      return `Notch ${ends(v.again ?? [])} again${v.gap && Object.keys(v.gap).length > 0 ? `; at the other end, ${gaps(v, write)}` : ""}.`;
    case "short":
      return `Make it again: it is ${write.length(v.short)} too short.`;
    case "other-tube":
      return "Make it again: another tube is wanted.";
    case "other-bends":
      return "Make it again: another number of bends is wanted.";
    case "off":
      return "Make it again: there is no place where both ends land.";
    case "not-found":
      return "Check it in its place: the search found no place for it, and whether it fits is unknown.";
    case "gap":
      return `Make it again: there is no metal to notch it again. ${capital(gaps(v, write))}.`;
    case "foul":
      return `Make it again: there is no metal to notch it again. Its notches enter the hosts by ${write.length(v.enters ?? Number.NaN)}.`;
  }
}

/** What a made bar is used for instead: what to do with it first. Labels are written by whoever lists it. */
export const sayReuse = (v: MadeVerdict, write: Say): string =>
  v.reason === "serves" ? `Use it as it is${serving(v, write)}.` : sayMade(v, write);

/** A piece of tube that a bar can be sawn from. */
export const sayPiece = (left: number, { length }: Pick<Say, "length">): string =>
  `Saw it from this piece: ${length(left)} of tube remains.`;

const serving = (v: MadeVerdict, write: Say): string =>
  v.gap && Object.keys(v.gap).length > 0 ? `: ${gaps(v, write)}` : `, with ${left(v, write)}`;

const ends = (list: readonly string[]): string => (list.length > 1 ? "both ends" : `end ${list[0] ?? ""}`);

function left({ ends: over }: MadeVerdict, { length }: Say): string {
  return over ? inLine(ENDS.map((e) => `${length(over[e])} of tube beyond end ${e}`)) : "no allowance";
}

/** Gaps beside the one that the shop accepts, all with digits enough to differ from it. */
function gaps({ gap, accepted }: MadeVerdict, write: Say): string {
  const found = ENDS.flatMap((end) => (gap?.[end] === undefined ? [] : [{ end, mm: gap[end] }]));
  if (found.length === 0) return "no notch is kept";
  const most = accepted === undefined ? [] : [accepted];
  const written = apart([...found.map(({ mm }) => mm), ...most], write.fine, write.finer?.length);
  const sizes = found.map(({ end }, i) => `${written[i]} at end ${end}`);
  return `the greatest gap is ${inLine(sizes)}${most.length > 0 ? `, accepted is ${written[found.length]}` : ""}`;
}

/** The call of `change`, for help and where it is wrong. */
export const CHANGE_CALL = {
  twoJobs: "name the job as it was and as it is wanted now",
  oneTooMany: (extra: string): string => `two job files; "${extra}" is one too many`,
};

/** Around the list of what a change does to the bars that are made. */
export const MADE_CHANGED = {
  none: "No bar that is made changes.",
  lost: "Give it a place again: it is made, and the plan has none.",
  gone: "Keep it for another bar: it is made, and the job no longer has it.",
};

/** Around the list of what a made bar could become. */
export const REUSE = {
  none: "No bar of the job and no piece on the rack fits.",
  found: (n: number): string => `${counted(n, "match", "matches")}.`,
  reversed: ", turned end for end",
  notMade: (label: string): string => `${label} is only laid out: only pieces on the rack are listed.`,
};
