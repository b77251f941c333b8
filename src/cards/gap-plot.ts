import {
  line,
  type Mark,
  type Placed,
  type Point,
  polygon,
  polyline,
  rectangle,
  text,
} from "../draw/index.ts";
import { sayGap } from "../words/index.ts";
import type { Subject } from "./subject.ts";

/** The gap round the joint, unrolled: φ from the zero line to the right as on the wrap, the gap upward (mm at 360 lines). */
export function gapPlot(s: Subject, gaps: Float64Array, at: number, accepted: number, width: number): Placed {
  const box = { x: 18, y: 6, width: width - 36, height: 22 };
  const greatest = Math.max(...[...gaps].filter((g) => !Number.isNaN(g)));
  const top = Math.max(greatest, accepted) * 1.25;
  const x = (phi: number): number => box.x + (phi / 360) * box.width;
  const y = (gap: number): number => box.y + box.height - (gap / top) * box.height;
  const marks: Mark[] = [];
  let run: Point[] = [];
  const runs: Point[][] = [];
  for (const [i, gap] of [...gaps, ...gaps.subarray(0, 1)].entries()) {
    if (!Number.isNaN(gap)) run.push([x(i), y(gap)]);
    if ((Number.isNaN(gap) || i === 360) && run.length > 0) {
      runs.push(run);
      run = [];
    }
  }
  for (const part of runs) {
    const [first, last] = [part[0], part.at(-1)];
    if (!first || !last) continue;
    const foot: Point[] = [
      [last[0], y(0)],
      [first[0], y(0)],
    ];
    marks.push(polygon([...part, ...foot], undefined, "shade"), polyline(part, "visible"));
  }
  marks.push(rectangle(box, "narrow"));
  for (const phi of [0, 90, 180, 270, 360]) {
    marks.push(line([x(phi), box.y + box.height], [x(phi), box.y + box.height + 1.5], "narrow"));
    marks.push(
      text([x(phi), box.y + box.height + 4.2], s.write.angle(phi).replace(/[.]0+°/, "°"), 2, {
        anchor: "middle",
      }),
    );
  }
  marks.push(line([box.x, y(accepted)], [box.x + box.width, y(accepted)], "hidden"));
  marks.push(text([box.x + box.width + 1.5, y(accepted) + 0.7], sayGap.accepted, 2));
  marks.push(text([box.x - 1.5, y(accepted) + 0.7], s.fine(accepted), 2, { anchor: "end" }));
  marks.push(line([x(at), y(greatest)], [x(at), box.y - 1], "dimension"));
  const anchor = at < 40 ? "start" : at > 320 ? "end" : "middle";
  marks.push(
    text([x(at), box.y - 2], sayGap.greatest(s.fine(greatest), s.write.angle(at)), 2.5, {
      anchor,
      bold: true,
    }),
  );
  return { marks, height: box.y + box.height + 5 };
}
