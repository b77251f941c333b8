import type { Hand, Points, Turn } from "../core/bend/index.ts";
import type { Cope } from "../core/cope/index.ts";
import { deg, rad } from "../core/numeric/index.ts";
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
import { END_PICTURE, NOTCHER_CARD, OPERATOR } from "../words/index.ts";

/** A filled head with its tip at `tip`, pointing along angle `way` (radians, counter-clockwise from +x as seen). */
function head(tip: Point, way: number, length = 3): Mark {
  const [c, s] = [Math.cos(way), -Math.sin(way)];
  const half = length * Math.tan(rad(12));
  const [x, y] = [tip[0] - length * c, tip[1] - length * s];
  return polygon([tip, [x - half * s, y + half * c], [x + half * s, y - half * c]], undefined, "ink");
}

/** A place `r` from `o` at angle `a` (radians, counter-clockwise from +x as seen). */
const at = (o: Point, r: number, a: number): Point => [o[0] + r * Math.cos(a), o[1] - r * Math.sin(a)];

/** The angle as seen, counter-clockwise from the operator's right. */
const seen = ({ above, side }: Points): number =>
  side === undefined ? Math.sign(above) * (Math.PI / 2) : side === "right" ? above : Math.PI - above;

export const OPERATOR_VIEW = { width: 40, height: 37 };

/**
 * The tube as its operator sees it, looking along it toward the die: where the last bend must point (thick arrow),
 * which way the tube was turned to get there, and to which side this bend goes (dashed).
 */
export function operatorView(turn: Turn | undefined, bend: number, turnSide: Hand): Placed {
  const o: Point = [OPERATOR_VIEW.width / 2, 16];
  const r = 5.5;
  const side = turnSide === "left" ? Math.PI : 0;
  const reach = 11;
  const marks: Mark[] = [
    line([o[0] - 17, o[1]], [o[0] + 17, o[1]], "centre"),
    line([o[0], o[1] - 14.5], [o[0], o[1] + 14.5], "centre"),
    line(at(o, r, side), at(o, reach + 3, side), "hidden"),
    head(at(o, reach + 5, side), side),
    circle(o, r, "visible", "paper"),
    circle(o, r - 1.2, "narrow"),
    text([o[0] - 19.5, o[1] - 1.2], OPERATOR.left, 2.2),
    text([o[0] + 19.5, o[1] - 1.2], OPERATOR.right, 2.2, { anchor: "end" }),
  ];
  const balloon = (place: Point, n: number): void => {
    marks.push(circle(place, 2.3, "narrow", "paper"));
    marks.push(text([place[0], place[1] + 1.1], `${n}`, 2.2, { anchor: "middle", bold: true }));
  };
  if (turn) {
    const a = seen(turn.points);
    const [c, s] = [Math.cos(a), -Math.sin(a)];
    const end = at(o, reach, a);
    const w = 1.1;
    // the bent leg as a bar, not a line, so that it is seen from two metres
    const root = at(o, r - 0.3, a);
    marks.push(
      polygon(
        [
          [root[0] - w * s, root[1] + w * c],
          [end[0] - w * s, end[1] + w * c],
          [end[0] + w * s, end[1] - w * c],
          [root[0] + w * s, root[1] - w * c],
        ],
        "visible",
        "ink",
      ),
    );
    balloon(at(o, reach + 3.4, a), turn.last);
    if (turn.way) {
      const mid = reach - 2.2;
      const [from, to] = [deg(-side), deg(-a)];
      // on the sheet degrees grow clockwise
      marks.push(
        turn.way === "clockwise" ? arc(o, mid, from, to, "dimension") : arc(o, mid, to, from, "dimension"),
      );
      const tangent = turn.way === "clockwise" ? a - Math.PI / 2 : a + Math.PI / 2;
      const under = 2.4 / mid;
      const short = turn.way === "clockwise" ? a + 0.1 : a - 0.1;
      marks.push(head(at(o, mid, short), tangent + (turn.way === "clockwise" ? under / 2 : -under / 2), 2.4));
    }
  }
  const away = turn ? Math.abs(Math.cos(seen(turn.points)) - Math.cos(side)) > 0.5 : true;
  if (!turn || away || Math.abs(turn.points.above) > 0.5) {
    // on the side of its line where the bent leg is not
    const isUnder = !turn || away || turn.points.above > 0;
    const place: Point = [at(o, reach + 1.5, side)[0], o[1] + (isUnder ? 4 : -2)];
    marks.push(text(place, OPERATOR.goes(bend), 1.8, { anchor: "middle" }));
  }
  OPERATOR.seen.forEach((words, i) => {
    marks.push(text([o[0], 34 + 2.6 * i], words, 1.8, { anchor: "middle" }));
  });
  return { marks, height: OPERATOR_VIEW.height };
}

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
