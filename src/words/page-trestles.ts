import { counted } from "./text.ts";

/** The Trestles station: a bent bar read before its ends are cut. */
export const TRESTLES = {
  which: "which one is bent?",
  heading: (bar: string): string => `${bar} on the trestles`,
  straightBar: "a straight bar",
  bends: (bends: number): string => `${counted(bends, "bend")}, ends as sawn`,
  mark: "Mark as bent",
  straight: "Go on to the notcher: a straight bar needs no reading here.",
  result: "Result",
  again: (size: string): string => `Read ${size} again first: it is far outside this shop's usual error.`,
  unless: "By the readings as they are:",
  none: "Check the units and the bar: no bar near the planned one gives these readings.",
  use: "Use the bar as bent",
  commandUse: (bar: string): string => `${bar}: use it as bent`,
  kept: "Its notches use the bar as bent.",
  notcher: "Go to the notcher",
  undo: "Use the planned bar",
  commandUndo: (bar: string): string => `${bar}: use it as planned`,
} as const;

/** So many times the usual error is still usual: at the Trestles, and at the Bender. */
export const USUAL = 2;

/** Readings on the bent bar. */
export const TO_READ = {
  label: "Readings on the bent bar",
  first: "Most useful readings",
  next: "Most useful readings next",
  enough: "No other reading adds much.",
  planned: (size: string): string => `planned ${size}`,
  another: "Choose another reading",
  title: "Another reading",
  finder: (reading: string): string => `${reading}, as the finder reads on both legs`,
  command: (bar: string, reading: string): string => `${bar}: read ${reading}`,
  computing: "computing…",
  notCounted: (why: string): string => `not counted: ${why}`,
  suspect: "read it again: far outside this shop's usual error, a slip of tape or bender",
  within: (times: number): string =>
    times <= USUAL ? "within this shop's usual error" : `${times.toFixed(1)} times this shop's usual error`,
} as const;

/** A size to be read on a bent bar. */
type BentSize =
  | { readonly what: "end-to-end" }
  | { readonly what: "leg"; readonly end: "A" | "B" }
  | { readonly what: "across"; readonly legs: readonly [number, number] }
  | { readonly what: "off-flat"; readonly bend: number; readonly end: "A" | "B" }
  | { readonly what: "angle"; readonly bend: number };

export function sayBentSize(size: BentSize): string {
  switch (size.what) {
    case "end-to-end":
      return "End to end, straight across";
    case "leg":
      return `Leg at end ${size.end}`;
    case "across":
      return `Outside to outside of legs ${size.legs[0]} and ${size.legs[1]}`;
    case "off-flat":
      return `End ${size.end} over the plane of bend ${size.bend}`;
    case "angle":
      return `Angle of bend ${size.bend}`;
  }
}

/** The bar as bent, beside the plan. */
export const AS_BENT = {
  label: "The bar as bent",
  first: "Take one of these readings to see the bar as bent and what to do.",
  freeEnd: (held: "A" | "B", off: string): string =>
    `With end ${held} held as planned, the other end is ${off} off.`,
  caption: "From end A, ends as sawn. Turns count clockwise, looking from A toward B.",
  what: "Part",
  planned: "planned",
  bent: "as bent",
  difference: "difference",
  asPlanned: "as planned",
  leg: (end: "A" | "B"): string => `leg at end ${end}`,
  straight: (before: number, after: number): string => `straight ${before} to ${after}`,
  bend: (n: number): string => `bend ${n}`,
  turn: (n: number): string => `turn before bend ${n}`,
  others: "Other bars it could become",
  reversed: (bar: string): string => `${bar}, turned end for end`,
} as const;

const WAYS = [
  ["farther forward", "farther back"],
  ["farther left", "farther right"],
  ["higher", "lower"],
] as const;

/** Where a bar would be, laid as well as it can be (mm). */
interface Placed {
  readonly landings: Readonly<
    Record<"A" | "B", { readonly moved: readonly [number, number, number]; readonly spare: number }>
  >;
  readonly worst: { readonly off: number; readonly along: number };
}

/** Where each end lands against the plan, the allowance there once its notch is cut, and the farthest place. */
export function sayLandings({ landings, worst }: Placed, length: (mm: number) => string): readonly string[] {
  const ends = (["A", "B"] as const).map((end) => {
    const { moved, spare } = landings[end];
    const where = Math.hypot(...moved) < 0.05 ? "as planned" : sayMove(moved, length);
    return `End ${end} lands ${where}; allowance there ${length(spare)}.`;
  });
  return [
    ...ends,
    `Farthest from its planned place: ${length(worst.off)}, ${length(worst.along)} along from end A.`,
  ];
}

/** "4.0 mm lower", by the greatest of the three ways in the car. */
function sayMove(moved: readonly [number, number, number], length: (mm: number) => string): string {
  const [x, y, z] = moved.map(Math.abs) as [number, number, number];
  const k = x >= y && x >= z ? 0 : y >= z ? 1 : 2;
  return `${length(Math.hypot(...moved))} ${WAYS[k][moved[k] > 0 ? 0 : 1]}`;
}
