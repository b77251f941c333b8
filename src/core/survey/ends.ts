import { type Centreline, placeAt, tapeMark } from "../bar/index.ts";
import { bar as barOf, count, type Finding, mm } from "../findings/index.ts";
import type { TapeEnd } from "../job/reading-types.ts";
import { SAME_PLACE } from "../numeric/index.ts";
import { along, sub, unit, type Vec } from "../space/index.ts";
import { halfExtent } from "../tube/index.ts";

/** What the survey needs of a bar; every `ResolvedBar` is one. */
export interface SurveyBar {
  readonly centreline: Centreline;
  readonly tube: { readonly od: number };
}

/** One end of a tape, ready to compute with. */
export type End =
  | { readonly kind: "point"; readonly point: number }
  /** On the round section of a tube: `reach` from the centre, away from the other end (negative: toward it). */
  | { readonly kind: "section"; readonly centre: Vec; readonly dir: Vec; readonly reach: number }
  | { readonly kind: "place"; readonly centre: Vec };

/**
 * The end of a tape in the car, or why there is none there.
 *
 * Convention: `outside` puts the mark on the far side of the tube's section at that station as seen from the tape's
 * other end, `inside` on the near side, both at the tube's outside radius plus `bead`; `centre` on the centreline.
 * A corner is where the outer lines of both legs meet, in the bend's plane: from the corner of the centrelines
 * r/cos(θ/2) outward along d₁ − d₂ (d₁, d₂ the legs' directions from A to B).
 */
export function endOf(
  end: TapeEnd,
  points: ReadonlyMap<string, number>,
  bars: ReadonlyMap<string, SurveyBar>,
  place: string,
): End | Finding {
  if (end.kind === "point") {
    const point = points.get(end.point);
    if (point === undefined) throw new Error(`${place}: there is no point ${end.point}`);
    return { kind: "point", point };
  }
  const bar = bars.get(end.bar);
  const bad = (code: Finding["code"], values: Finding["values"]): Finding => ({
    code,
    place,
    values: { host: barOf(end.bar), ...values },
  });
  if (!bar) return bad("survey-bar-missing", {});
  const { centreline, tube } = bar;
  if (end.kind === "tube") {
    const s = end.along < 0 ? centreline.length + end.along : end.along;
    if (s < -SAME_PLACE || s > centreline.length + SAME_PLACE)
      return bad("survey-off-bar", { along: mm(end.along), length: mm(centreline.length) });
    const { at, dir } = placeAt(centreline, s);
    const reach = { outside: 1, inside: -1, centre: 0 }[end.over] * (halfExtent(tube) + end.bead);
    return { kind: "section", centre: at, dir, reach };
  }
  const bend = centreline.bends.find((b) => b.n === end.bend);
  if (!bend) return bad("survey-no-bend", { bend: count(end.bend), count: count(centreline.bends.length) });
  const before = bend.arc.y;
  const after = placeAt(centreline, bend.end).dir;
  const out = unit(sub(before, after));
  return { kind: "place", centre: along(bend.corner, out, halfExtent(tube) / Math.cos(bend.angle / 2)) };
}

/** Where the tape's mark lies, seen from the tape's other end. */
export const markOf = (end: Exclude<End, { kind: "point" }>, other: Vec): Vec =>
  end.kind === "place" ? end.centre : tapeMark(end.centre, end.dir, end.reach, other);
