import type { CopeResult, Joint } from "../core/cope/index.ts";
import type { End } from "../core/job/index.ts";
import { sinCosDeg } from "../core/numeric/index.ts";
import type { WrapFor } from "../words/index.ts";
import { endOf } from "./ends.ts";
import type { Subject } from "./subject.ts";

/**
 * Which cut a wrap is for. outside: the tool runs through both walls in the direction of the host (hole saw, mill, or a
 * torch held that way) and follows the outside of the tube. square: the tool is held square to the wall (saw blade,
 * grinder, torch, snips), so it must clear whichever of outside and bore is deeper.
 */
export type CutKind = "outside" | "square";

/** Ordinary office paper of 80 g/m² (mm; common practice, no source). */
export const PAPER_THICKNESS = 0.1;

/** Lines round the wrap: every half degree. */
export const LINES = 720;
/** Radii through the wall at which a cut made square to it is sampled. */
const THROUGH = 9;
/** Two wraps that differ by less everywhere are one (mm): less than a scriber's line. */
const SAME = 0.1;

const curves = new WeakMap<CopeResult, Partial<Record<CutKind, Float64Array>>>();

/** `wrapCurve` of an end, kept as long as the end's cope stays the same; undefined for a square end. */
export function curveOf(made: CopeResult, kind: CutKind): Float64Array | undefined {
  const { cope, joint } = made;
  if (!joint) return undefined;
  const kept = curves.get(made) ?? {};
  const back = kept[kind] ?? wrapCurve(joint, cope.outerRadius, cope.boreRadius, kind);
  curves.set(made, { ...kept, [kind]: back });
  return back;
}

/**
 * The curve to cut to: back at φ = 0°, ½°, … 359½° (mm), NaN where the line misses every host. For a square cut the
 * greatest back through the wall, outside to bore, at 9 radii; a radius that misses asks for nothing there.
 */
export function wrapCurve(joint: Joint, outer: number, bore: number, kind: CutKind): Float64Array {
  const back = new Float64Array(LINES);
  for (let i = 0; i < LINES; i++) {
    const [sin, cos] = sinCosDeg(i / 2);
    let most = joint.back(outer, cos, sin);
    if (kind === "square")
      for (let k = 1; k < THROUGH; k++) {
        const b = joint.back(outer + ((bore - outer) * k) / (THROUGH - 1), cos, sin);
        if (!(b <= most) && !Number.isNaN(b)) most = b;
      }
    back[i] = most;
  }
  return back;
}

/** Width of the wrap, 0 to 360° (mm): the paper's middle layer lies at OD/2 + t/2, so π(OD + t). */
export const girth = (od: number, thickness: number): number => Math.PI * (od + thickness);

/** What a wrap of an end is for: either cut where one wrap serves both. */
export const wrapFor = (s: Subject, end: End, kind: CutKind): WrapFor =>
  wrapKinds(s, end).length === 1 ? "both" : kind;

/** The wraps that an end needs: none if it is square, one if both cuts are alike, else one for each. */
export function wrapKinds(s: Subject, end: End): readonly CutKind[] {
  const a = curveOf(s.bar.copes[end], "outside");
  const b = curveOf(s.bar.copes[end], "square");
  if (!a || !b || endOf(s, end).heel === undefined || a.every(Number.isNaN)) return [];
  return a.every((x, i) => !(Math.abs(x - b[i]!) > SAME) && Number.isNaN(x) === Number.isNaN(b[i]!))
    ? ["outside"]
    : ["outside", "square"];
}
