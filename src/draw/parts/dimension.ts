import { arc, line, text } from "../build.ts";
import { textWidth } from "../lettering.ts";
import { onCircle, upright } from "../place.ts";
import type { Mark, Point } from "../types.ts";
import { arrowhead, arrowLength } from "./arrow.ts";

export interface DimensionOptions {
  /** Height of the figures, mm (3.5). */
  readonly size?: number;
  /** What is measured: the distance itself (aligned), or its share across ("x") or down ("y") the sheet. */
  readonly along?: "aligned" | "x" | "y";
}

/** Extension lines start this far off the outline and run this far past the dimension line, mm (8 × 0.25). */
const GAP = 1;
const PAST = 2;
/** Between words and the line that carries them, mm. */
const ABOVE = 1;

/**
 * A dimension after ISO 129-1:2018: extension lines, a dimension line with filled heads, and the words above it, to be
 * read from the foot or the right-hand side of the sheet. The dimension line lies `offset` mm to the right hand of
 * one who walks from `from` to `to` on the sheet (negative: left hand). Where the room is short, heads point inward
 * from outside and the words go past the end of the line. The words carry their own unit.
 */
export function dimension(
  from: Point,
  to: Point,
  offset: number,
  words: string,
  options: DimensionOptions = {},
): Mark[] {
  const { size = 3.5, along = "aligned" } = options;
  const way = direction(from, to, along);
  const right: Point = [-way[1], way[0]];
  const step = (p: Point, u: Point, by: number): Point => [p[0] + by * u[0], p[1] + by * u[1]];
  const delta: Point = [to[0] - from[0], to[1] - from[1]];
  const length = delta[0] * way[0] + delta[1] * way[1];
  const across = delta[0] * right[0] + delta[1] * right[1];
  const [a, b] = [step(from, right, offset), step(to, right, offset - across)];
  const head = arrowLength(size);
  const cramped = length < 2 * head + 1;
  const out: Mark[] = [...extension(from, right, offset), ...extension(to, right, offset - across)];
  const [tailA, tailB] = cramped ? [step(a, way, -2 * head), step(b, way, 2 * head)] : [a, b];
  const inward: Point = [-way[0], -way[1]];
  out.push(line(tailA, tailB, "dimension"));
  out.push(arrowhead(a, cramped ? way : inward, head), arrowhead(b, cramped ? inward : way, head));

  const rotate = readable(way);
  const [read, up] = upright(rotate);
  const forward = read[0] * way[0] + read[1] * way[1] > 0;
  const width = textWidth(words, size);
  // the words stand above the heads, so they may take the whole length
  if (width + 1 <= length) {
    const middle = step(step(a, way, length / 2), up, ABOVE);
    out.push(text(middle, words, size, { anchor: "middle", rotate }));
    return out;
  }
  // past the end that is reached last when reading, on a line drawn out under the words
  const start = forward ? tailB : tailA;
  const shelf = step(start, read, (cramped ? 0 : ABOVE) + width + ABOVE);
  out.push(line(start, shelf, "dimension"));
  out.push(text(step(step(start, read, ABOVE), up, ABOVE), words, size, { rotate }));
  return out;
}

function direction(from: Point, to: Point, along: "aligned" | "x" | "y"): Point {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = along === "x" ? Math.abs(dx) : along === "y" ? Math.abs(dy) : Math.hypot(dx, dy);
  if (length === 0) throw new Error("a dimension needs two places apart");
  return along === "x" ? [dx / length, 0] : along === "y" ? [0, dy / length] : [dx / length, dy / length];
}

function extension(p: Point, right: Point, offset: number): Mark[] {
  const side = Math.sign(offset);
  if (Math.abs(offset) <= GAP) return [];
  const at = (by: number): Point => [p[0] + by * side * right[0], p[1] + by * side * right[1]];
  return [line(at(GAP), at(Math.abs(offset) + PAST), "dimension")];
}

/** The turn that lets words along a line be read from the foot or the right of the sheet: in [−90, 90). */
function readable([x, y]: Point): number {
  const angle = (Math.atan2(y, x) * 180) / Math.PI;
  return angle >= 90 - 1e-9 ? angle - 180 : angle < -90 - 1e-9 ? angle + 180 : angle;
}

/**
 * The angle at `centre` from direction `from` clockwise to direction `to` (degrees, as seen), its arc at `radius` mm,
 * the words level, outside the arc or past its end. The sides of the angle are the figure's own lines: none are drawn.
 */
export function angleDimension(
  centre: Point,
  radius: number,
  from: number,
  to: number,
  words: string,
  size = 3.5,
): Mark[] {
  const end = to >= from ? to : to + 360;
  const head = arrowLength(size);
  // a head lies along the chord under it, so that it stays on the arc
  const under = (head / radius) * (180 / Math.PI);
  const cramped = end - from < 2 * under + 4;
  const out: Mark[] = [
    arc(centre, radius, cramped ? from - 2 * under : from, cramped ? end + 2 * under : end, "dimension"),
  ];
  const headAt = (at: number, back: number): Mark => {
    const [tip, tail] = [onCircle(centre, radius, at), onCircle(centre, radius, at + back)];
    const chord = Math.hypot(tip[0] - tail[0], tip[1] - tail[1]);
    return arrowhead(tip, [(tip[0] - tail[0]) / chord, (tip[1] - tail[1]) / chord], head);
  };
  out.push(headAt(from, cramped ? -under : under), headAt(end, cramped ? under : -under));
  const [w, h] = [textWidth(words, size), size];
  // where the sides leave no room for the words, they go past the tail of the second head
  const tight = ((end - from) * Math.PI * radius) / 180 < 2 * size;
  const last = cramped ? end + 2 * under : end;
  const start = tight ? onCircle(centre, radius, last) : centre;
  const [ux, uy] = onCircle([0, 0], 1, tight ? last + 90 : (from + end) / 2);
  const clear = (tight ? 0 : radius) + 1.5 * ABOVE + (Math.abs(ux) * w + Math.abs(uy) * h) / 2;
  out.push(text([start[0] + clear * ux, start[1] + clear * uy + h / 2], words, size, { anchor: "middle" }));
  return out;
}

/** A leader with a head at `tip`, a knee at `knee`, and the words on a shelf that runs level away from the tip. */
export function leader(tip: Point, knee: Point, words: string, size = 3.5): Mark[] {
  const length = Math.hypot(tip[0] - knee[0], tip[1] - knee[1]);
  if (length === 0) throw new Error("a leader needs a knee apart from its tip");
  const way: Point = [(tip[0] - knee[0]) / length, (tip[1] - knee[1]) / length];
  const side = knee[0] >= tip[0] ? 1 : -1;
  const shelf: Point = [knee[0] + side * (textWidth(words, size) + 2 * ABOVE), knee[1]];
  return [
    { kind: "polyline", points: [tip, knee, shelf], line: "dimension" },
    arrowhead(tip, way, arrowLength(size)),
    text([knee[0] + side * ABOVE, knee[1] - ABOVE], words, size, { anchor: side > 0 ? "start" : "end" }),
  ];
}
