import type { Centreline } from "../core/bar/index.ts";
import { deg } from "../core/numeric/index.ts";
import { add, cross, dot, neg, rejection, scale, sub, unit, type Vec } from "../core/space/index.ts";
import { extent } from "../core/tube/index.ts";
import { type Mark, type Placed, type Point, paragraph, polygon, polyline, text } from "../draw/index.ts";
import { sayFinishedBar, sayScale } from "../words/index.ts";
import { balloon } from "./marked-tube.ts";
import { bounds, project, silhouettes, type View } from "./outline.ts";
import { reduction } from "./scale.ts";
import type { Subject } from "./subject.ts";

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
  const letter = (at: Vec, out: Vec, name: string): void => {
    const p = on(project(at, view));
    const d = project(out, view);
    const l = Math.hypot(d[0], d[1]) || 1;
    marks.push(
      text([p[0] + (d[0] / l) * 6, p[1] + (d[1] / l) * 6 + 2], name, 4, { anchor: "middle", bold: true }),
    );
  };
  letter(line.start, neg(dirA), "A");
  letter(line.finish, dirB, "B");
  for (const bend of line.bends) {
    const inward = add(bend.arc.x, unitAt(bend.arc.angle, bend.arc.x, bend.arc.y));
    const p = on(project(bend.corner, view));
    const d = project(scale(inward, 1), view);
    const l = Math.hypot(d[0], d[1]) || 1;
    const at: Point = [p[0] + (d[0] / l) * (4 + (od / 2) * k), p[1] + (d[1] / l) * (4 + (od / 2) * k)];
    marks.push(...balloon(at, bend.n, 2.3));
    // beside the ring, or beyond it where beside would run over the tube
    const [ux, uy] = [d[0] / l, d[1] / l];
    const beside = Math.abs(ux) > 0.7;
    const words: Point = beside
      ? [at[0] + Math.sign(ux) * 3.4, at[1] + 1.2]
      : [at[0], at[1] + 1.2 + Math.sign(uy) * 5];
    const anchor = beside ? (ux > 0 ? "start" : "end") : "middle";
    marks.push(text(words, s.write.angle(deg(bend.angle)), 2.5, { anchor }));
  }
  const foot = pad + box.height * k + 16;
  const tail = lead === "A" ? "B" : "A";
  const up = rises > FLAT ? { end: tail, rises: s.write.length(rises) } : undefined;
  const said = sayFinishedBar(first.n, sayScale(n), up);
  const note = paragraph([0, foot - 2.6], width, said, { size: 2 });
  return { marks: [...marks, ...note.marks], height: foot - 2.6 + note.height };
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
