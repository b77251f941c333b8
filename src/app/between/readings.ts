import { parseLength } from "../../core/units/index.ts";
import { BETWEEN, sayLength, WRONG_MEASURE } from "../../words/index.ts";
import type { JobDocument, Json } from "../model/document/index.ts";

/**
 * Between two tubes: what one measures of two tubes that stand already, and the bar that is to run between them.
 *
 * The string is the new bar's centreline: stretched (or a straight edge laid) from tube 1 to tube 2 where the bar is
 * to run, crossing both in their middle. Both tubes are chalked on the same side, the one that is up in the picture.
 * - `reading1`, `reading2`: the angle-finder laid between the string and the chalked half of the tube: 90° where the
 *   tube stands square to the string; below 90° where that half leans toward the other tube, above where it leans away.
 *   Two parallel tubes give two readings that add up to 180°.
 * - `twist`: how far tube 2's chalked half is turned to tube 1's, clockwise as one looks along the string from tube 1
 *   to tube 2; 0 where both lie in one plane (laid on a bench, both do).
 * - `distance`: the tape laid along the string, either over both tubes, outside to outside ("over"), or from the near
 *   side of one to the near side of the other ("between").
 *
 * Lengths are kept as typed. The tape laid beside a leaning tube meets its outline OD/2 ÷ sin(reading) from its middle,
 * so the middles stand apart: distance ∓ OD1/2 ÷ sin(reading1) ∓ OD2/2 ÷ sin(reading2), − for "over", + for "between".
 */
export interface TwoTubes {
  readonly od1: Json;
  readonly wall1: Json;
  readonly od2: Json;
  readonly wall2: Json;
  readonly od: Json;
  readonly wall: Json;
  readonly distance: Json;
  readonly tape: "over" | "between";
  readonly reading1: number;
  readonly reading2: number;
  readonly twist: number;
  /** How far an angle-finder reading may be off (degrees): the allowance follows from it. */
  readonly trust: number;
  readonly show: { readonly length: "mm" | "in"; readonly fraction: number };
  /** Measures that were set by hand; the others are examples. */
  readonly set?: readonly string[];
}

/** No notcher goes further off square than this (degrees). */
export const LEAST_READING = 15;
export const MOST_READING = 165;

export const NEW_BAR = "new-bar";
export const TUBE_1 = "tube-1";
export const TUBE_2 = "tube-2";

export type Between =
  | { readonly ok: true; readonly document: JobDocument; readonly apart: number }
  | { readonly ok: false; readonly field: Exclude<keyof TwoTubes, "set">; readonly why: string };

/**
 * The readings as a small job: two host bars and the bar between them. Car axes: the string runs from left (tube 1) to
 * right (tube 2), chalk up, seen from behind; angles to hundredths of a micrometre of place.
 */
export function jobOfReadings(r: TwoTubes): Between {
  const size = { od1: 0, wall1: 0, od2: 0, wall2: 0, od: 0, wall: 0, distance: 0 };
  for (const key of ["od1", "wall1", "od2", "wall2", "od", "wall", "distance"] as const) {
    const read = lengthOf(r[key]);
    if (typeof read === "string") return { ok: false, field: key, why: read };
    size[key] = read;
  }
  for (const [od, wall] of [
    ["od1", "wall1"],
    ["od2", "wall2"],
    ["od", "wall"],
  ] as const)
    if (size[wall] * 2 >= size[od]) return { ok: false, field: wall, why: WRONG_MEASURE.wall };
  for (const key of ["reading1", "reading2"] as const)
    if (!(r[key] >= LEAST_READING && r[key] <= MOST_READING))
      return {
        ok: false,
        field: key,
        why: WRONG_MEASURE.angle(LEAST_READING, MOST_READING),
      };
  if (!(Math.abs(r.twist) <= 180)) return { ok: false, field: "twist", why: WRONG_MEASURE.twist };
  const [a, b, t] = [rad(r.reading1), rad(r.reading2), rad(r.twist)];
  const sign = r.tape === "over" ? -1 : 1;
  const apart = size.distance + sign * (size.od1 / 2 / Math.sin(a) + size.od2 / 2 / Math.sin(b));
  const least = size.od1 / 2 / Math.sin(a) + size.od2 / 2 / Math.sin(b) + size.od;
  if (!(apart > least))
    return {
      ok: false,
      field: "distance",
      why: WRONG_MEASURE.short,
    };
  // d1 = cos a · u + sin a · up with u along the string; d2 the same from the other side, its up turned by the twist
  const d1: Vec = [0, -Math.cos(a), Math.sin(a)];
  const d2: Vec = [-Math.sin(b) * Math.sin(t), Math.cos(b), Math.sin(b) * Math.cos(t)];
  const half = apart / 2;
  const host = (od: number, sin: number) => Math.max(4 * od, (2.5 * (od + size.od)) / sin);
  const line = (y: number, d: Vec, reach: number): Json =>
    [-reach, reach].map((s) => [tidy(s * d[0]), tidy(y + s * d[1]), tidy(s * d[2])]);
  const tube = (od: "od" | "od1" | "od2", wall: "wall" | "wall1" | "wall2"): Json => {
    const example = [r.set?.includes(od) ? [] : ["od"], r.set?.includes(wall) ? [] : ["wall"]].flat();
    return { od: r[od], wall: r[wall], ...(example.length > 0 ? { example } : {}) };
  };
  const tubes: Json = {
    [TUBE_1]: tube("od1", "wall1"),
    [TUBE_2]: tube("od2", "wall2"),
    [NEW_BAR]: tube("od", "wall"),
  };
  const reach = [host(size.od1, Math.sin(a)), host(size.od2, Math.sin(b))] as const;
  const document: JobDocument = {
    format: "tubewright job",
    version: 2,
    name: BETWEEN.job,
    show: { ...r.show },
    tubes,
    bars: {
      [TUBE_1]: { label: BETWEEN.tube(1), tube: TUBE_1, path: line(half, d1, reach[0]), progress: "welded" },
      [TUBE_2]: { label: BETWEEN.tube(2), tube: TUBE_2, path: line(-half, d2, reach[1]), progress: "welded" },
      [NEW_BAR]: {
        label: BETWEEN.bar,
        tube: NEW_BAR,
        path: [
          { on: TUBE_1, along: tidy(reach[0]) },
          { on: TUBE_2, along: tidy(reach[1]) },
        ],
        believed: { A: believed(r.reading1, r.trust), B: believed(r.reading2, r.trust) },
      },
    },
  };
  return { ok: true, document, apart };
}

/** Off square, from the least to the greatest that the reading may stand for (degrees). */
function believed(reading: number, trust: number): Json {
  const off = Math.abs(90 - reading);
  const round = (x: number): number => Math.round(x * 100) / 100;
  return [round(Math.max(0, off - trust)), round(Math.min(89, off + trust))];
}

type Vec = readonly [number, number, number];
const rad = (degrees: number): number => (degrees * Math.PI) / 180;
const tidy = (x: number): number => Math.round(x * 1e5) / 1e5 + 0;

/** Millimetres, or why not. */
function lengthOf(value: Json): number | string {
  const read =
    typeof value === "number" ? { ok: true as const, mm: value } : parseLength(String(value ?? ""));
  if (!read.ok) return sayLength(read.why);
  return read.mm > 0 ? read.mm : WRONG_MEASURE.size;
}
