import type { Centreline } from "../core/bar/index.ts";
import { deg } from "../core/numeric/index.ts";
import { add, cross, dot, neg, rejection, scale, sub, unit, type Vec } from "../core/space/index.ts";
import { extent } from "../core/tube/index.ts";
import {
  group,
  type Mark,
  type Placed,
  type Point,
  paragraph,
  polygon,
  polyline,
  type Rect,
  text,
} from "../draw/index.ts";
import { sayFinishedBar, sayScale } from "../words/index.ts";
import { places, wordsBeside } from "./clear-of.ts";
import { balloon } from "./marked-tube.ts";
import { bounds, project, silhouettes, type View } from "./outline.ts";
import { reduction } from "./scale.ts";
import type { Subject } from "./subject.ts";

/** Radius of the ring round a bend's number, mm. */
const RING = 2.3;

/** Above the plane of the bend by less, a bar lies flat (mm). */
const FLAT = 0.5;

/**
 * The bar as bent, lying on the plane of the bend that is made first and seen from above that table, the side up
 * toward which its tail rises; the chord from A to B level, A on the left.
 */
export function finishedBar(s: Subject, width: number, height: number): Placed {
  const line = s.bar.bar.centreline;
  const lead = s.bar.bar.fromEnd;
  const nearA = line.bends[0];
  const first = lead === "A" ? nearA : line.bends.at(-1);
  const [begins, ends] = [line.pieces[0], line.pieces.at(-1)];
  if (!nearA || !first || !begins || !ends) throw new Error("only a bar with bends is drawn as bent");
  const { view, rises } = tableView(
    line,
    first.arc.n,
    lead === "A" ? line.finish : line.start,
    first.arc.centre,
    nearA.arc.y,
  );
  const od = extent(s.bar.bar.tube);
  const seen = silhouettes(line, od / 2, view).sort((a, b) => a.near - b.near);
  const box = bounds(seen.flatMap((p) => p.rim));
  const pad = 12;
  const n = reduction(box.width, box.height, { width: width - 2 * pad, height: height - 20 - pad });
  const k = 1 / n;
  const dx = (width - box.width * k) / 2;
  const on = (p: Point): Point => [dx + (p[0] - box.x) * k, pad + (p[1] - box.y) * k];
  const marks: Mark[] = [];
  const dirA = begins.kind === "straight" ? begins.dir : begins.y;
  const dirB = ends.kind === "straight" ? ends.dir : ends.y;
  for (const piece of seen) {
    marks.push(polygon(piece.rim.map(on), undefined, "paper"));
    for (const side of piece.sides) marks.push(polyline(side.map(on), "visible"));
  }
  for (const piece of seen) marks.push(polyline(piece.axis.map(on), "centre"));
  const seenAt = (at: Vec): Point => on(project(at, view));
  const letter = (at: Vec, out: Vec): Point => {
    const [x, y] = seenAt(at);
    const d = project(out, view);
    const l = Math.hypot(d[0], d[1]) || 1;
    return [x + (d[0] / l) * 6, y + (d[1] / l) * 6];
  };
  const letters = [letter(line.start, neg(dirA)), letter(line.finish, dirB)];
  letters.forEach(([x, y], i) => {
    marks.push(text([x, y + 2], i === 0 ? "A" : "B", 4, { anchor: "middle", bold: true }));
  });
  const axes = seen.map((piece) => piece.axis.map(on));
  const named = bendMarks(s, axes, (od / 2) * k, seenAt, view);
  marks.push(...named.marks);
  const drawn = bounds([
    ...seen.flatMap((p) => p.rim.map(on)),
    ...letters.flatMap(([x, y]): Point[] => [
      [x, y - 2],
      [x, y + 2],
    ]),
    ...named.boxes.flatMap((b): Point[] => [
      [b.x, b.y],
      [b.x, b.y + b.height],
    ]),
  ]);
  const foot = drawn.height + 3;
  const tail = lead === "A" ? "B" : "A";
  const up = rises > FLAT ? { end: tail, rises: s.write.length(rises) } : undefined;
  const said = sayFinishedBar(first.n, sayScale(n), up);
  const note = paragraph([0, foot], width, said, { size: 2 });
  return {
    marks: [group("finished bar", marks, { at: [0, -drawn.y] }), ...note.marks],
    height: foot + note.height,
  };
}

/** Each bend's ring at its corner, outside of the bend, and its angle beside the ring, clear of the tube. */
function bendMarks(
  s: Subject,
  axes: readonly (readonly Point[])[],
  half: number,
  on: (at: Vec) => Point,
  view: View,
): { readonly marks: readonly Mark[]; readonly boxes: readonly Rect[] } {
  const rings = s.bar.bar.centreline.bends.map((bend) => {
    const p = on(bend.corner);
    const outward = add(bend.arc.x, unitAt(bend.arc.angle, bend.arc.x, bend.arc.y));
    const d = project(outward, view);
    const l = Math.hypot(d[0], d[1]) || 1;
    const way: Point = [d[0] / l, d[1] / l];
    const at: Point = [p[0] + way[0] * (4 + half), p[1] + way[1] * (4 + half)];
    return { bend, at, way, radius: RING };
  });
  const axis = axes.flatMap((line) => places(line, 0.5));
  const boxes: Rect[] = rings.map(({ at: [x, y] }) => ({
    x: x - RING,
    y: y - RING,
    width: 2 * RING,
    height: 2 * RING,
  }));
  const marks = rings.flatMap((ring, i) => {
    const others = boxes.filter((_, n) => n !== i);
    const said = wordsBeside(s.write.angle(deg(ring.bend.angle)), 2.5, ring, { axis, half, boxes: others });
    boxes.push(said.box);
    return [...balloon(ring.at, ring.bend.n, RING), said.mark];
  });
  return { marks, boxes };
}

/** c x + s y: from the centre of a bend to its end. */
const unitAt = (angle: number, x: Vec, y: Vec): Vec =>
  add(scale(x, Math.cos(angle)), scale(y, Math.sin(angle)));

/** `level`: the direction that runs level where both ends lie over each other. */
function tableView(
  line: Centreline,
  n: Vec,
  tail: Vec,
  centre: Vec,
  level: Vec,
): { view: View; rises: number } {
  const height = dot(sub(tail, centre), n);
  const up = height < 0 ? neg(n) : n;
  const chord = rejection(sub(line.finish, line.start), up);
  const right = Math.hypot(...chord) > 1 ? unit(chord) : unit(rejection(level, up));
  return { view: { right, up: cross(up, right) }, rises: Math.abs(height) };
}
