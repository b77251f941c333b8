/** Which cut a wrap is for: along the host, square to the wall, or either where the two are alike. */
export type WrapFor = "outside" | "square" | "both";

const TOOL: Readonly<Record<WrapFor, string>> = {
  outside: "Wrap for a hole saw or mill",
  square: "Wrap for a torch or grinder",
  both: "Wrap for any cutter",
};

const wrapsFor = (kind: WrapFor): string => TOOL[kind].replace("Wrap", "Wraps");

export const WRAP = {
  title: (kind: WrapFor, label: string, end: string): string => `${TOOL[kind]} — ${label}, end ${end}`,
  /** Of a page with the wraps of both ends; `kind` where both are for the same cutter. */
  titleBoth: (kind: WrapFor | undefined, label: string): string =>
    `${kind ? wrapsFor(kind) : "Wraps"} — ${label}, ends A and B`,
  /** Over each wrap of a page; `kind` where the page's title does not say it. */
  caption: (end: string, hosts: string, kind: WrapFor | undefined): string =>
    `End ${end} — ${kind ? `${TOOL[kind].toLowerCase()}, ` : ""}onto ${hosts}`,
  document: (end: string): string => `Wrap, end ${end}`,
  use: "Cut the paper out. Lay line 0° on the zero line, printed face out. Close 360 on 0.",
  foot: (...parts: readonly string[]): string => parts.join(" · "),
  cut: {
    outside: "CUT ALONG THE HOST: hole saw, mill, or a torch held that way, through both walls.",
    square: "CUT SQUARE TO THE WALL: clears outside and bore.",
    both: "EITHER CUT: along the host, or square to the wall.",
  } satisfies Record<WrapFor, string>,
  faceOut: "The outside of the tube faces you.",
  edge: (...parts: readonly string[]): string => `↑ CUT EDGE · ${parts.join(" · ")}`,
  paper: (hosts: string, zero: string, od: string, paper: string): string =>
    `Onto ${hosts}. Zero line: ${zero}. Ø ${od}, wrap made for ${paper} mm paper.`,
  bentInJoint:
    "Cut oversize and fit in the car: the bend runs into this joint. Beyond the straight, the curve is measured along the centreline.",
  long: { tube: "long point", square: "long point of this cut" },
  misses: "misses",
  waste: "waste",
  overlap: "overlap: goes under, 360 on 0",
  zero: (zeroLine: string): string =>
    zeroLine.startsWith("bend")
      ? `outside of ${zeroLine}`
      : zeroLine === "up"
        ? "top in the car"
        : "front in the car",
} as const;

/** Where the wrap's base line is; `bend` says how far the nearest bend is from it, or how far it runs into that. */
export function sayBaseLine(w: {
  readonly long: string;
  readonly sawn: string;
  readonly bend:
    | { readonly n: number; readonly away: string }
    | { readonly n: number; readonly into: string }
    | undefined;
}): string {
  const bend =
    w.bend === undefined
      ? ""
      : "away" in w.bend
        ? `, ${w.bend.away} from bend ${w.bend.n}`
        : `; ${w.bend.into} into bend ${w.bend.n}: shorten the paper to the straight`;
  return `Base line ${w.long} in from the tube's long point (${w.sawn} from the sawn end${bend}).`;
}
