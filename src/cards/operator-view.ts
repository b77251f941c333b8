import type { Hand, Points, Turn } from "../core/bend/index.ts";
import { deg, rad } from "../core/numeric/index.ts";
// Not by the room's index, which brings the PDF writer along: the page draws this too.
import { arc, circle, line, polygon, text } from "../draw/build.ts";
import type { Mark, Placed, Point } from "../draw/types.ts";
import { OPERATOR } from "../words/index.ts";

/** A filled head with its tip at `tip`, pointing along angle `way` (radians, counter-clockwise from +x as seen). */
export function head(tip: Point, way: number, length = 3): Mark {
  const [c, s] = [Math.cos(way), -Math.sin(way)];
  const half = length * Math.tan(rad(12));
  const [x, y] = [tip[0] - length * c, tip[1] - length * s];
  return polygon([tip, [x - half * s, y + half * c], [x + half * s, y - half * c]], undefined, "ink");
}

/** A place `r` from `o` at angle `a` (radians, counter-clockwise from +x as seen). */
export const at = (o: Point, r: number, a: number): Point => [o[0] + r * Math.cos(a), o[1] - r * Math.sin(a)];

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
