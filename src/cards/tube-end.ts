import type { Cope } from "../core/cope/index.ts";
import { rad } from "../core/numeric/index.ts";
import {
  arc,
  circle,
  group,
  line,
  type Mark,
  type Placed,
  type Point,
  polygon,
  text,
} from "../draw/index.ts";
import { END_PICTURE, NOTCHER_CARD } from "../words/index.ts";
import { at, head } from "./operator-view.ts";

export interface EndMarks {
  /** φ of the heel, radians; the hole saw's axis runs from heel to toe. */
  readonly heel?: number;
  /** The hole saw axis's distance from the tube's, toward 90° past the heel, mm at true size. */
  readonly offset?: number;
  /** φ of the long point, degrees. */
  readonly long?: number;
}

export const END_VIEW = { width: 62, height: 61 };

/** Not to scale: the tube is always drawn this large (mm). */
const END_RADIUS = 15;

/** The cut end as one sees it looking at it, the zero line up; φ grows counter-clockwise. Not to scale. */
export function endView(cope: Cope, zero: string, marked: EndMarks): Placed {
  const o: Point = [END_VIEW.width / 2, 31];
  const r = END_RADIUS;
  const bore = (r * cope.boreRadius) / cope.outerRadius;
  /** Angle as seen of a place at φ radians. */
  const to = (phi: number): number => Math.PI / 2 + phi;
  const marks: Mark[] = [];
  if (marked.heel !== undefined) {
    const a = to(marked.heel);
    const off = ((marked.offset ?? 0) * r) / cope.outerRadius;
    // an axis far outside the tube is drawn as near as the picture reaches
    const shift = Math.max(-24, Math.min(24, off));
    // the hole saw's axis lies toward 90° past the heel
    const base = at(o, shift, a + Math.PI / 2);
    marks.push(line(at(base, r + 6, a), at(base, r + 6, a + Math.PI), "centre"));
  }
  marks.push(circle(o, r, "visible"), circle(o, bore, "narrow"));
  const label = (phi: number, words: string, bold = false, out = 3.2): void => {
    const place = at(o, r + out, to(phi));
    const c = Math.cos(to(phi));
    const anchor = c > 0.35 ? "start" : c < -0.35 ? "end" : "middle";
    marks.push(text([place[0], place[1] + 0.9 - Math.sin(to(phi)) * 1.1], words, 2.2, { anchor, bold }));
  };
  for (let d = 0; d < 360; d += 30) {
    const a = to(rad(d));
    marks.push(line(at(o, r, a), at(o, r + (d % 90 === 0 ? 2.2 : 1.2), a), "narrow"));
  }
  // the zero line: a black wedge on the outside
  marks.push(
    polygon([at(o, r, to(0)), [o[0] - 1.6, o[1] - r - 4], [o[0] + 1.6, o[1] - r - 4]], undefined, "ink"),
  );
  marks.push(text([0, 2.2], END_PICTURE.zero, 2.2, { bold: true }), text([0, 5.2], zero, 1.8));
  if (marked.heel !== undefined) {
    const a = to(marked.heel);
    marks.push(line(o, at(o, r - 2, a), "visible"), head(at(o, r, a), a, 4));
    label(marked.heel, NOTCHER_CARD.sides.heel, true, 6.8);
    label(marked.heel + Math.PI, NOTCHER_CARD.sides.toe, false, 6.8);
  }
  if (marked.long !== undefined) {
    const a = to(rad(marked.long));
    marks.push(circle(at(o, (r + bore) / 2, a), 1.3, "narrow", "ink"));
    const inward = at(o, bore - 2.6, a);
    const c = Math.cos(a);
    marks.push(
      text([inward[0], inward[1] + 0.7], NOTCHER_CARD.sides.long, 1.8, {
        anchor: c > 0.35 ? "end" : c < -0.35 ? "start" : "middle",
      }),
    );
  }
  const turn = arc(o, 6, -60, 60, "dimension");
  marks.push(group("way", [turn, head(at(o, 6, rad(60)), rad(150), 2.2)], {}));
  marks.push(text([END_VIEW.width / 2, 57.5], END_PICTURE.seen, 1.8, { anchor: "middle" }));
  marks.push(text([END_VIEW.width / 2, 60.2], END_PICTURE.counted, 1.8, { anchor: "middle" }));
  return { marks, height: END_VIEW.height };
}
