// biome-ignore-all lint/style/noNonNullAssertion: wrapCurve makes every curve of WRAP_LINES entries, so that both cuts of an end have as many.
import { type CopeResult, type CutKind, wrapCurve } from "../core/cope/index.ts";
import type { End } from "../core/job/index.ts";
import type { WrapFor } from "../words/index.ts";
import { endOf } from "./ends.ts";
import type { Subject } from "./subject.ts";

/** Ordinary office paper of 80 g/m² (mm; common practice, no source). */
export const PAPER_THICKNESS = 0.1;

/** Two wraps that differ by less everywhere are one (mm): less than a scriber's line. */
const SAME = 0.1;

const curves = new WeakMap<CopeResult, Partial<Record<CutKind, Float64Array>>>();

/** `wrapCurve` of an end, kept as long as the end's cope stays the same; undefined for a square end. */
export function curveOf(made: CopeResult, kind: CutKind): Float64Array | undefined {
  const kept = curves.get(made) ?? {};
  const back = kept[kind] ?? wrapCurve(made, kind);
  curves.set(made, { ...kept, ...(back ? { [kind]: back } : {}) });
  return back;
}

/** What a wrap of an end is for: either cut where one wrap serves both. */
export const wrapFor = (s: Subject, end: End, kind: CutKind): WrapFor =>
  wrapKinds(s, end).length === 1 ? "both" : kind;

/** The wraps that an end needs: none if it is square, one if both cuts are alike, else one for each. */
export function wrapKinds(s: Subject, end: End): readonly CutKind[] {
  // an end that is notched has its record
  if (s.made?.notched[end]) return [];
  const a = curveOf(s.bar.copes[end], "outside");
  const b = curveOf(s.bar.copes[end], "square");
  if (!a || !b || endOf(s, end).heel === undefined || a.every(Number.isNaN)) return [];
  return a.every((x, i) => !(Math.abs(x - b[i]!) > SAME) && Number.isNaN(x) === Number.isNaN(b[i]!))
    ? ["outside"]
    : ["outside", "square"];
}
