import type { PlannedBend } from "../core/bend/index.ts";
import type { End } from "../core/job/index.ts";
import { extent } from "../core/tube/index.ts";
import {
  circle,
  line,
  type Mark,
  type Placed,
  type Point,
  polygon,
  polyline,
  rectangle,
  text,
  textWidth,
} from "../draw/index.ts";
import { sayMarkedTube, sayScale } from "../words/index.ts";
import { reduction } from "./scale.ts";
import { type Subject, sawnLength } from "./subject.ts";

interface FeedMark {
  readonly n: number;
  readonly mark: number;
  readonly arc: number;
  readonly bend: PlannedBend;
}

/** Marks in order of bending, from the sawn end that is fed first (mm). */
export function feedMarks(s: Subject): readonly FeedMark[] {
  const { bends } = s.bar.bend;
  const factor = s.bar.bar.die?.arcFactor ?? 1;
  const fromA = s.bar.bar.fromEnd === "A";
  const listed = bends.map((b) => ({
    n: b.n,
    mark: fromA ? b.mark : b.markB,
    arc: factor * b.clr * b.angle,
    bend: b,
  }));
  return fromA ? listed : listed.reverse();
}

/**
 * The straight tube with its marks, the end fed first on the left: every mark measured from that sawn end, by running
 * dimensions from one datum (ISO 129-1). Reduced; the scale is below.
 */
export function markedTube(s: Subject, width: number): Placed {
  const length = sawnLength(s.bar);
  const od = extent(s.bar.bar.tube);
  const lead = s.bar.bar.fromEnd;
  const tail: End = lead === "A" ? "B" : "A";
  const margin = 8;
  const n = reduction(length, od, { width: width - 2 * margin, height: 8 });
  const k = 1 / n;
  const x = (mm: number): number => margin + mm * k;
  const high = Math.max(3, od * k);
  const top = 11.5;
  const foot = top + high;
  const marks: Mark[] = [];
  const size = 2.5;
  const ends: [End, number, number][] = [
    [lead, 0, -1],
    [tail, length, 1],
  ];
  for (const [end, at, side] of ends)
    marks.push(text([x(at) + side * 3.5, top + high / 2 + 1.8], end, 5, { anchor: "middle", bold: true }));
  const all = feedMarks(s);
  const shift = s.bar.bar.die?.mark ?? 0;
  for (const bend of all) {
    const from = bend.mark - shift;
    marks.push(rectangle({ x: x(from), y: top, width: bend.arc * k, height: high }, undefined, "shade"));
  }
  marks.push(rectangle({ x: x(0), y: top, width: length * k, height: high }, "visible"));
  marks.push(line([x(0) - 2, top + high / 2], [x(length) + 2, top + high / 2], "centre"));
  for (const [end, at, side] of ends) {
    const trim = s.bar.bend.trim[end];
    if (trim * k > 0.4) {
      const place = x(at - side * trim);
      marks.push(line([place, top], [place, foot], "hidden"));
    }
  }
  // balloons above, kept apart
  let before = -Infinity;
  for (const bend of all) {
    const place = Math.max(x(bend.mark), before + 6.4);
    before = place;
    marks.push(line([x(bend.mark), foot], [x(bend.mark), top - 2], "visible"));
    marks.push(
      polyline(
        [
          [x(bend.mark), top - 2],
          [place, top - 4.6],
        ],
        "narrow",
      ),
    );
    marks.push(circle([place, top - 7.4], 2.8, "visible", "paper"));
    marks.push(text([place, top - 6.1], `${bend.n}`, 2.8, { anchor: "middle", bold: true }));
  }
  // running dimensions below, on as many levels as their words need
  const origin = foot + 5;
  const stops = [...all.map((b) => b.mark), length];
  const levels: number[] = [];
  let deepest = 0;
  for (const stop of stops) {
    const words = s.write.length(stop);
    const wide = textWidth(words, size) + 4;
    // before the arrow; where the datum is too near for that, past it
    const before = x(stop) - x(0) > wide + 2;
    const [from, to] = before ? [x(stop) - wide, x(stop) + 1] : [x(stop), x(stop) + wide];
    let level = levels.findIndex((end) => from > end);
    if (level < 0) level = levels.length;
    levels[level] = to;
    deepest = Math.max(deepest, level);
    const y = origin + level * 5.2;
    marks.push(line([x(0), y], [x(stop), y], "dimension"));
    marks.push(line([x(stop), foot + 1], [x(stop), y + 1.5], "dimension"));
    marks.push(
      polygon(
        [
          [x(stop), y],
          [x(stop) - 2.4, y - 0.45],
          [x(stop) - 2.4, y + 0.45],
        ],
        undefined,
        "ink",
      ),
    );
    const place: Point = [x(stop) + (before ? -3 : 1.5), y - 0.9];
    marks.push(text(place, words, size, { anchor: before ? "end" : "start" }));
  }
  const y = origin + deepest * 5.2;
  marks.push(line([x(0), foot + 1], [x(0), y + 1.5], "dimension"));
  for (let level = 0; level <= deepest; level++)
    marks.push(circle([x(0), origin + level * 5.2], 0.9, "dimension", "paper"));
  marks.push(text([margin, y + 5], sayMarkedTube(sayScale(n)), 2));
  return { marks, height: y + 6 };
}

/** A number in a ring. */
export const balloon = (at: readonly [number, number], n: number | string, radius = 2.8): Mark[] => [
  circle(at, radius, "visible", "paper"),
  text([at[0], at[1] + radius * 0.45], `${n}`, radius * 0.95, { anchor: "middle", bold: true }),
];
