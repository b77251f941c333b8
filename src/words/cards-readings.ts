import type { Writer } from "../core/findings/index.ts";
import type { BentSize } from "../core/job/index.ts";
import type { Over } from "../core/job/reading-types.ts";
import type { Adjusted, Advice, ReadingResult, Survey, SurveyPoint, Suspect } from "../core/survey/index.ts";
import { pointWords } from "./car-places.ts";
import { saySlip } from "./slips.ts";
import { counted, inLine } from "./text.ts";

/** What can be read in the car. */
export const KINDS = [
  "tape",
  "height",
  "out",
  "fore",
  "level",
  "plumb",
  "slope",
  "lean along",
  "lean across",
] as const;
export type ReadingKind = (typeof KINDS)[number];

/** Whether nothing is typed: it just is so. */
export const isPlain = (kind: ReadingKind): boolean => kind === "level" || kind === "plumb";
export const isAngle = (kind: ReadingKind): boolean =>
  kind === "slope" || kind === "lean along" || kind === "lean across";

/** The ways in which a figure with a side goes; none for a plain size. */
export function sidesOf(kind: ReadingKind): readonly [string, string] | undefined {
  switch (kind) {
    case "height":
      return ["above the floor", "below it"];
    case "out":
      return ["left", "right"];
    case "fore":
      return ["forward", "back"];
    case "slope":
      return ["second is higher", "second is lower"];
    case "lean along":
      return ["front higher", "rear higher"];
    case "lean across":
      return ["left higher", "right higher"];
    default:
      return undefined;
  }
}

/** A kind of reading as the pad offers it. */
export const KIND_NAMES: Readonly<Record<ReadingKind, string>> = {
  tape: "Tape",
  height: "Height",
  out: "Out from the centre",
  fore: "Forward",
  level: "Level",
  plumb: "Plumb",
  slope: "Slope",
  "lean along": "Shell, front to rear",
  "lean across": "Shell, side to side",
};

export const OVER_NAMES: Readonly<Record<Over, string>> = {
  outside: "far side",
  inside: "near side",
  centre: "centre",
};

/** Of a height, top and underside say it better. */
export const overName = (kind: ReadingKind, over: Over): string =>
  kind === "height" && over !== "centre" ? (over === "outside" ? "top" : "underside") : OVER_NAMES[over];

/** A size as it was typed, unit and all; a plain number is millimetres. */
export function asRead(value: unknown, kind: ReadingKind): string {
  if (typeof value !== "number" && typeof value !== "string") return "";
  const sides = sidesOf(kind);
  if (isAngle(kind)) {
    const size = Number(value);
    return `${Math.abs(size)}°${size === 0 || !sides ? "" : `, ${sides[size < 0 ? 1 : 0]}`}`;
  }
  const text = String(value).trim();
  const negative = text.startsWith("-");
  const bare = negative ? text.slice(1).trim() : text;
  const size = typeof value === "number" ? `${bare} mm` : bare;
  const isZero = Number.parseFloat(bare) === 0;
  // up and forward go without saying; down, back, left and right do not
  const side = sides && !isZero && (negative || kind === "out") ? ` ${sides[negative ? 1 : 0]}` : "";
  return `${size}${side}`;
}

/** A reading in a person's words, without its size: what its ends are held on is said already. */
export function sayHeld(kind: ReadingKind, [p, q]: readonly [string, string], over?: Over): string {
  const tube = over ? `, ${overName(kind, over)}` : "";
  switch (kind) {
    case "tape":
      return `Tape, ${p} to ${q}${tube}`;
    case "height":
      return `Height of ${p}${tube}`;
    case "out":
      return `${p}, out from the centre plane${tube}`;
    case "fore":
      return `${p}, forward of x = 0${tube}`;
    case "level":
      return `${p} and ${q} are level`;
    case "plumb":
      return `${p} and ${q} are plumb over each other`;
    case "slope":
      return `Slope from ${p} to ${q}`;
    case "lean along":
      return "The shell's lean, front to rear";
    case "lean across":
      return "The shell's lean, side to side";
  }
}

/** What of a tape was held, behind its reading: ", held at its 100 mm mark"; nothing where it was its hook. */
export const sayMark = (mark: unknown): string => {
  const held = asRead(mark, "tape");
  return held === "" || Number.parseFloat(held) === 0 ? "" : `, held at its ${held} mark`;
};

/** How a reading fits the rest, in plain words, and whether it does. */
export interface Fits {
  readonly says: string;
  readonly ok: boolean;
}

const times = (normalized: number): string => `${Math.abs(normalized).toFixed(1)} times its error`;

/** What to say of each reading that counts, by its index in the job's list. */
export function fitsOf(survey: Survey, write: Writer): ReadonlyMap<number, Fits> {
  const size = (unit: "mm" | "deg", v: number): string => (unit === "deg" ? write.angle(v) : write.length(v));
  const out = new Map<number, Fits>();
  for (const r of survey.cleaned.readings) out.set(r.index, { ok: true, says: sayFit(r) });
  for (const r of survey.readings)
    if (!out.has(r.index)) out.set(r.index, { ok: true, says: "only between points that are not fixed yet" });
  for (const s of survey.suspects) out.set(s.index, { ok: false, says: saySuspect(s, size) });
  return out;
}

function sayFit({ normalized, redundancy }: ReadingResult): string {
  if (normalized === null) return "no other reading checks it";
  if (redundancy < 0.1) return `fits (${times(normalized)}), but hardly checked by the others`;
  return `fits (${times(normalized)})`;
}

function saySuspect(s: Suspect, size: (unit: "mm" | "deg", v: number) => string): string {
  const likely = s.slip ? ` Perhaps it was ${saySlip(s.slip)}.` : "";
  const among =
    s.among && s.among.length > 1
      ? ` Read them again: ${s.among.length} readings explain it equally well.`
      : "";
  return `does not fit: ${times(s.normalized)}; the others give ${size(s.unit, s.computed)}.${likely}${among}`;
}

/** Whether the readings agree, in one sentence. */
export function agreeWords(survey: Survey): Fits {
  if (!survey.converged)
    return { ok: false, says: "Check the findings below: together these readings fit no car." };
  const count = survey.readings.length;
  const read = counted(count, "reading");
  const { cleaned, suspects } = survey;
  if (suspects.length > 0) {
    const one = suspects.length === 1;
    const rest =
      cleaned.sigma0 === null
        ? ""
        : cleaned.test?.passed === false
          ? "; the rest disagree as well"
          : "; the rest agree";
    return { ok: false, says: `${suspects.length} of ${read} ${one ? "does" : "do"} not fit${rest}.` };
  }
  if (survey.sigma0 === null || survey.freedom === 0)
    return { ok: true, says: `${read}, none more than needed: nothing checks them.` };
  const more = `${survey.freedom} more than needed`;
  if (survey.test?.passed === false)
    return {
      ok: false,
      says: `${read}, ${more}. Together they disagree by ${survey.sigma0.toFixed(1)} times their errors, more than by chance. No single one is to blame.`,
    };
  return { ok: true, says: `${read}, ${more}: they agree within their errors.` };
}

/** Within how far a point lies, 95 %, along the worst direction (mm): half axis of 95 % for three unknowns, 2.80 (chi-square, 3 degrees). */
export const NINETY_FIVE = 2.8;

/** "left and right" for the direction in which a place is known worst. */
export function worstWay({ ellipsoid }: SurveyPoint): string {
  const [x, y, z] = ellipsoid.directions[0].map(Math.abs) as [number, number, number];
  if (x >= y && x >= z) return "forward and back";
  return y >= z ? "left and right" : "up and down";
}

/** A reading to take, in a person's words; begins in small letters. */
export function sayAdvice(advice: Advice): string {
  switch (advice.kind) {
    case "tape":
      return `a tape from ${pointWords(advice.points[0])} to ${pointWords(advice.points[1])}`;
    case "height":
      return `the height of ${pointWords(advice.point)}`;
    case "out":
      return `the distance of ${pointWords(advice.point)} out from the centre plane`;
    case "fore":
      return `the distance of ${pointWords(advice.point)} forward of x = 0`;
  }
}

/** The shell's lean, each way that was read. */
export function leanWords({ lean }: Adjusted, write: Writer): readonly string[] {
  const say = (way: "along" | "across", higher: readonly [string, string]): readonly string[] => {
    const read = lean?.[way];
    if (!read) return [];
    const size = write.angle(Math.abs(read.angle));
    const side = higher[read.angle < 0 ? 1 : 0];
    return [`The shell is ${size} ± ${write.angle(read.sd)} off level, ${side} higher.`];
  };
  return [...say("along", ["the front", "the rear"]), ...say("across", ["the left", "the right"])];
}

/** What one end of a reading is held on. */
export const HELD = {
  corner: (bend: number, bar: string): string => `the outer corner of bend ${bend} of ${bar}`,
  tube: (bar: string, along: string, end: string): string => `${bar}, ${along} from end ${end}`,
} as const;

/** What is read on a bent bar, in a person's words. */
export function sayBent(size: BentSize): string {
  switch (size.what) {
    case "end-to-end":
      return "End to end, straight across";
    case "leg":
      return `Leg at end ${size.end}, to where the outer lines meet`;
    case "across":
      return `Outside to outside of legs ${size.legs[0]} and ${size.legs[1]}`;
    case "off-flat":
      return `End ${size.end} over the plane of bend ${size.bend}`;
    case "angle":
      return `Angle of bend ${size.bend}`;
  }
}

export const sayGapRead = (end: string, phi: number, cut: number): string =>
  `Gap at end ${end}, ${phi}° from the zero line, cut at ${cut}°`;

export const READING_SHEET = {
  title: "Reading list",
  car: "Read in the car, as read",
  none: "No readings of the car yet.",
  made: (label: string): string => `Read of ${label} after it was made, as read`,
  struck: (note: string | undefined): string => `struck${note ? `: ${note}` : ""}`,
  angle: (degrees: number): string => `${degrees}°`,
  off: (says: string): string => `!  ${says}`,
  points: "Points, one standard deviation beside each",
  columns: ["Point", "x, forward", "y, left", "z, up", "95 % within; weakest direction"],
  given: "given",
  within: (size: string, way: string): string => `${size}; ${way}`,
  loose: (point: string, fix: readonly string[]): string =>
    `${pointWords(point)} is not fixed yet${fix.length > 0 ? `; ${fix.join(", ")} would fix it` : ""}.`,
  findings: "Findings",
} as const;

export const MEASURING = {
  title: "Measuring plan",
  bentTitle: (label: string): string => `Measuring plan on the trestles: ${label}`,
  take: "Readings to take",
  car: "Begin at the front and walk round the car by its left side. Write each size as the tape reads it, with its unit. Write the mark, too, where its hook is not used. Strike out a misreading, never rub it out.",
  bent: "Lay the bar on the trestles, ends still sawn square. Write each size as the tape reads it, with its unit.",
  straight: "A straight bar: read its length alone.",
  noPoints:
    "Give a datum first: an origin, a point ahead of it and one to its left. Then add the points to be found.",
  allFixed: "Nothing is missing: every point is fixed, and the readings agree.",
  allGiven: "Every point is given.",
  fixes: (point: string): string => `Fixes ${pointWords(point)}.`,
  settles: (points: readonly string[]): string =>
    `Settles on which side ${inLine(points.map(pointWords))} ${points.length === 1 ? "is" : "are"}.`,
  again: (why: string): string => `Read it once more: ${why}`,
  doesNotFit: "it does not fit",
  helps: (point: string, before: string, after: string): string =>
    `Helps most: ${pointWords(point)} from ± ${before} to ± ${after}.`,
  wanted: (size: string, after: string, before: string): string =>
    `As wanted it reads ${size}. The free end is then known to ± ${after}, from ± ${before}.`,
  other: "Other readings",
  reads: "reads",
  units: { angle: "°", mm: "mm", inch: "in" },
  columns: ["first place", "second place", "near, far, centre", "reading", "unit"],
} as const;
