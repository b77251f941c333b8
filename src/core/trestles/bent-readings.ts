// biome-ignore-all lint/style/noNonNullAssertion: readingProblem says beforehand that the bar has the bend, the leg and the end that a reading names; a shape has a radius for each angle and one straight more
import type { Straight } from "../bar/index.ts";
import { count, type Phrase, phrase, text } from "../findings/index.ts";
import type { End } from "../job/types.ts";
import { rad } from "../numeric/index.ts";
import { cross, dist, dot, len, neg, ORIGIN, rejection, sub } from "../space/index.ts";
import { type BarShape, lineOf } from "./shape.ts";

/** One size read on a bent bar before its ends are cut. Lengths mm, angles radians. */
export type BentReading = {
  /** One standard deviation; the shop's by kind where absent. */
  readonly sd?: number;
  readonly value: number;
} & (
  | {
      /** Straight across, centre of one sawn end to centre of the other. */
      readonly what: "end-to-end";
    }
  | {
      /** From a sawn end to where the outer lines of both legs of the bend next to it meet. */
      readonly what: "leg";
      readonly end: End;
    }
  | {
      /** Outside to outside of two legs, square across where the later one begins; legs counted from 1 at end A. */
      readonly what: "across";
      readonly legs: readonly [number, number];
    }
  | {
      /** The bar lying on the plane of a bend: from there to the underside of a sawn end. */
      readonly what: "off-flat";
      readonly bend: number;
      readonly end: End;
    }
  | {
      /** Angle finder on both legs of a bend: how far it is bent. */
      readonly what: "angle";
      readonly bend: number;
    }
);

/** What a reading is called in a sentence: "the leg at end A". */
export function sizePhrase(reading: BentReading): Phrase {
  switch (reading.what) {
    case "end-to-end":
      return phrase("bent-end-to-end");
    case "leg":
      return phrase("bent-leg", { end: text(reading.end) });
    case "across":
      return phrase("bent-across", { first: count(reading.legs[0]), second: count(reading.legs[1]) });
    case "off-flat":
      return phrase("bent-off-flat", { end: text(reading.end), bend: count(reading.bend) });
    case "angle":
      return phrase("bent-angle", { bend: count(reading.bend) });
  }
}

/** Why a bar cannot give a reading. */
export type BentProblem =
  | { readonly code: "straight-bar" | "legs-in-order" | "too-wide" | "no-size" }
  /** `bends`: the numbers of those that it has. */
  | { readonly code: "no-bend"; readonly bend: number; readonly bends: readonly number[] }
  | { readonly code: "no-leg"; readonly leg: number; readonly legs: number };

/** Why this bar cannot give a reading; undefined where it can. */
export function readingProblem(reading: BentReading, shape: BarShape): BentProblem | undefined {
  const bends = shape.angles.length;
  const bend = (n: number): BentProblem | undefined =>
    shape.numbers.includes(n) ? undefined : { code: "no-bend", bend: n, bends: shape.numbers };
  if (bends === 0 && reading.what !== "end-to-end") return { code: "straight-bar" };
  switch (reading.what) {
    case "angle":
      return bend(reading.bend) ?? range(reading.value, 0, Math.PI);
    case "off-flat":
      return bend(reading.bend) ?? range(Math.abs(reading.value), 0, LONGEST);
    case "across": {
      const [i, j] = reading.legs;
      const bad = [i, j].find((n) => !Number.isInteger(n) || n < 1 || n > bends + 1);
      if (bad !== undefined) return { code: "no-leg", leg: bad, legs: bends + 1 };
      if (i >= j) return { code: "legs-in-order" };
      return range(reading.value, 1e-3, LONGEST);
    }
    case "leg":
      if (shape.angles[reading.end === "A" ? 0 : bends - 1]! > WIDEST) return { code: "too-wide" };
      return range(reading.value, 1e-3, LONGEST);
    case "end-to-end":
      return range(reading.value, 1e-3, LONGEST);
  }
}

/** A size read in another unit than it is in is still one to be asked about, not refused (mm). */
const LONGEST = 1e6;

/** Beyond this the outer lines meet too far away to lay a square to, as on the bender card. */
const WIDEST = rad(120);

const range = (value: number, low: number, high: number): BentProblem | undefined =>
  value >= low && value <= high ? undefined : { code: "no-size" };

/**
 * What a reading would be on a bar of this shape, its ends sawn square and standing where the shape's straights end.
 *
 * Definitions as on the bender card (`checksAfter`): leg = straight + (R + r)·tan(θ/2); across = distance square
 * across, + 2r; off-flat = h + r − r·√(1 − sin² slope), h the height of the end's centre over the plane of the bend's
 * centrelines, counted to the side on which `wanted` has the end (the bend's normal where it lies in the plane).
 * Units: mm, radians; `od` mm.
 */
export function measure(reading: BentReading, shape: BarShape, od: number, wanted: BarShape): number {
  const { what } = reading;
  if (what === "angle") return shape.angles[shape.numbers.indexOf(reading.bend)]!;
  const r = od / 2;
  if (what === "leg") {
    const bend = reading.end === "A" ? 0 : shape.angles.length - 1;
    const straight = shape.straights[reading.end === "A" ? 0 : bend + 1]!;
    return straight + (shape.radii[bend]! + r) * Math.tan(shape.angles[bend]! / 2);
  }
  const line = lineOf(shape, LAID);
  if (what === "end-to-end") return dist(line.start, line.finish);
  const straights = line.pieces.filter((p): p is Straight => p.kind === "straight");
  if (what === "across") {
    const [i, j] = reading.legs;
    const [leg, other] = [straights[i - 1]!, straights[j - 1]!];
    return len(rejection(sub(other.from, leg.from), leg.dir)) + od;
  }
  const { height, slope } = overPlane(shape, reading.bend, reading.end);
  const side = overPlane(wanted, reading.bend, reading.end).height < -1e-6 ? -1 : 1;
  return side * height + r - r * Math.sqrt(Math.max(0, 1 - slope * slope));
}

const LAID = { at: ORIGIN, dir: [1, 0, 0], inside: [0, 1, 0] } as const;

function overPlane(shape: BarShape, bend: number, end: End): { height: number; slope: number } {
  const line = lineOf(shape, LAID);
  const { arc } = line.bends.find((b) => b.n === bend)!;
  const n = cross(arc.x, arc.y);
  const piece = (end === "A" ? line.pieces[0] : line.pieces[line.pieces.length - 1]) as Straight;
  const out = end === "A" ? neg(piece.dir) : piece.dir;
  const at = end === "A" ? line.start : line.finish;
  return { height: dot(sub(at, arc.centre), n), slope: dot(out, n) };
}
