// Not by the room's index, which brings the PDF writer along: the page draws these too.
import { circle, line, polygon, polyline, text } from "../draw/build.ts";
import type { Mark, Point } from "../draw/types.ts";
import { PICTURE, SEEN } from "../words/index.ts";
import { type LiesPicture, reads } from "./how-it-lies.ts";

/** What is read on a bent bar. */
export type BentKind = "end-to-end" | "leg" | "across" | "off-flat" | "angle";

const W = 72;
const H = 40;
/** Half a tube's width and a bend's radius in these pictures (mm). */
const HALF = 2.4;
const BEND = 8;

/** How a size is read on a bent bar, drawn; `end` is written at the end that counts. */
export function howBent(kind: BentKind, end: "A" | "B" = "B"): LiesPicture {
  const other = end === "A" ? "B" : "A";
  const seen = (marks: readonly Mark[], from: string): LiesPicture => ({
    marks,
    width: W,
    height: H,
    seen: from,
  });
  switch (kind) {
    case "end-to-end": {
      const path: Point[] = [
        [10, 31],
        [18, 10],
        [50, 10],
        [62, 27],
      ];
      return seen(
        [...tube(path), ...reads([10, 31], [62, 27], PICTURE.reads), name([5, 33], "A"), name([67, 29], "B")],
        SEEN.endToEnd,
      );
    }
    case "leg": {
      const path: Point[] = [
        [22, 8],
        [22, 30],
        [62, 30],
      ];
      const outer = 30 + HALF;
      return seen(
        [
          ...tube(path),
          line([22 - HALF, 18], [22 - HALF, outer], "hidden"),
          line([22 - HALF, outer], [36, outer], "hidden"),
          circle([22 - HALF, outer], 0.9, undefined, "ink"),
          ...extension([22 - HALF, 8], [12, 8]),
          ...extension([22 - HALF, outer], [12, outer]),
          ...reads([14, 8], [14, outer], ""),
          text([11, 21], PICTURE.reads, 2.6, { anchor: "end", bold: true }),
          name([22, 5], end),
        ],
        SEEN.leg,
      );
    }
    case "across": {
      const path: Point[] = [
        [20, 8],
        [20, 32],
        [52, 32],
        [52, 8],
      ];
      return seen(
        [
          ...tube(path),
          ...reads([20 - HALF, 17], [52 + HALF, 17], PICTURE.reads),
          name([20, 5], "A"),
          name([52, 5], "B"),
        ],
        SEEN.across,
      );
    }
    case "off-flat": {
      const bar: Point[] = [
        [12, 31.6],
        [44, 31.6],
        [62, 12],
      ];
      return seen(
        [
          line([6, 34], [68, 34], "visible"),
          ...tube(bar, 6),
          ...extension([62 + HALF * 0.7, 13.6], [68, 13.6]),
          ...reads([67, 34], [67, 13.6], ""),
          text([65, 30.5], PICTURE.reads, 2.6, { anchor: "end", bold: true }),
          name([9, 28], other),
          name([60, 7], end),
          text([28, 38.5], PICTURE.flat, 2.3, { anchor: "middle" }),
        ],
        SEEN.offFlat,
      );
    }
    case "angle": {
      const path: Point[] = [
        [8, 30],
        [38, 30],
        [60, 8],
      ];
      return seen(
        [
          ...tube(path),
          line([38, 30], [66, 30], "centre"),
          polyline(arc([38, 30], 18, 0, -45), "dimension"),
          text([58, 25], PICTURE.reads, 2.6, { bold: true }),
          polygon(
            [
              [14, 22.5],
              [26, 22.5],
              [26, 26.6],
              [14, 26.6],
            ],
            "visible",
            "paper",
          ),
          circle([20, 24.5], 1.3, "narrow"),
          text([20, 20], PICTURE.finder, 2.3, { anchor: "middle" }),
        ],
        SEEN.angle,
      );
    }
  }
}

const name = (p: Point, word: string): Mark => text(p, word, 3.2, { anchor: "middle", bold: true });
const extension = (from: Point, to: Point): Mark[] => [line(from, to, "dimension")];

function arc([x, y]: Point, r: number, from: number, to: number): Point[] {
  return Array.from({ length: 13 }, (_, i) => {
    const t = ((from + ((to - from) * i) / 12) * Math.PI) / 180;
    return [x + r * Math.cos(t), y + r * Math.sin(t)] as const;
  });
}

/** A tube along straight lines with its corners bent: outline, sawn ends and centre line. */
function tube(corners: readonly Point[], radius = BEND): Mark[] {
  const axis = bent(corners, radius);
  const side = (s: number): Point[] =>
    axis.map(([x, y], i) => {
      const a = axis[i - 1] ?? [x, y];
      const b = axis[i + 1] ?? [x, y];
      const l = Math.hypot(b[0] - a[0], b[1] - a[1]);
      return [x - (s * (b[1] - a[1])) / l, y + (s * (b[0] - a[0])) / l];
    });
  const [left, right] = [side(HALF), side(-HALF)];
  return [polygon([...left, ...[...right].reverse()], "visible", "shade"), polyline(axis, "centre")];
}

/** The path with an arc of so small a radius in each corner. */
function bent(corners: readonly Point[], radius: number): Point[] {
  const out: Point[] = [];
  for (const [i, c] of corners.entries()) {
    const [p, q] = [corners[i - 1], corners[i + 1]];
    if (!p || !q) {
      out.push(c);
      continue;
    }
    const to = (t: Point): Point => {
      const l = Math.hypot(t[0] - c[0], t[1] - c[1]);
      return [(t[0] - c[0]) / l, (t[1] - c[1]) / l];
    };
    const [u, v] = [to(p), to(q)];
    const half = Math.acos(Math.max(-1, Math.min(1, u[0] * v[0] + u[1] * v[1]))) / 2;
    const back = radius / Math.tan(half);
    const bis: Point = [u[0] + v[0], u[1] + v[1]];
    const l = Math.hypot(bis[0], bis[1]);
    const far = radius / Math.sin(half);
    const o: Point = [c[0] + (bis[0] / l) * far, c[1] + (bis[1] / l) * far];
    const from = Math.atan2(c[1] + u[1] * back - o[1], c[0] + u[0] * back - o[0]);
    const to2 = Math.atan2(c[1] + v[1] * back - o[1], c[0] + v[0] * back - o[0]);
    const sweep = ((to2 - from + 3 * Math.PI) % (2 * Math.PI)) - Math.PI;
    for (let k = 0; k <= 10; k++) {
      const t = from + (sweep * k) / 10;
      out.push([o[0] + radius * Math.cos(t), o[1] + radius * Math.sin(t)]);
    }
  }
  return out;
}
