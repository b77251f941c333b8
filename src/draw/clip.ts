import { wrap360 } from "../core/numeric/index.ts";
import { textWidth } from "./lettering.ts";
import { onCircle, upright } from "./place.ts";
import type { Arc, Circle, Point, Polyline, Rect, Text } from "./types.ts";

export type Leaf = Polyline | Circle | Arc | Text;

/** Largest distance between a filled circle and the polygon that stands for it when it is cut, mm. */
const CHORD = 0.005;

/** The mark cut to the rectangle (edges belong to it). A text stays whole when its middle is inside, else it goes. */
export function cut(mark: Leaf, r: Rect): Leaf[] {
  switch (mark.kind) {
    case "text":
      return contains(r, middle(mark)) ? [mark] : [];
    case "arc":
      return cutArc(mark, r);
    case "circle":
      return cutCircle(mark, r);
    case "polyline":
      return cutPolyline(mark, r);
  }
}

export const contains = (r: Rect, [x, y]: Point): boolean =>
  x >= r.x && x <= r.x + r.width && y >= r.y && y <= r.y + r.height;

/** Middle of the lettering: half its width along, half a capital up. */
export function middle(mark: Text): Point {
  const [a, , b] = corners(mark);
  return lerp(a, b, 0.5);
}

/** The four corners of the lettering, baseline to the top of the capitals, in turn from its start on the baseline. */
export function corners(mark: Text): [Point, Point, Point, Point] {
  const width = textWidth(mark.text, mark.size, mark.bold);
  const start = mark.anchor === "middle" ? -width / 2 : mark.anchor === "end" ? -width : 0;
  const [along, up] = upright(mark.rotate ?? 0);
  const at = (a: number, u: number): Point => [
    mark.at[0] + a * along[0] + u * up[0],
    mark.at[1] + a * along[1] + u * up[1],
  ];
  return [at(start, 0), at(start + width, 0), at(start + width, mark.size), at(start, mark.size)];
}

function cutPolyline(mark: Polyline, r: Rect): Leaf[] {
  if (mark.points.every((p) => contains(r, p))) return [mark];
  const { closed, fill, line, points } = mark;
  const out: Leaf[] = [];
  if (fill) {
    const rest = clipPolygon(points, r);
    if (rest.length > 2) out.push({ kind: "polyline", points: rest, closed: true, fill });
  }
  if (line) {
    const path = closed ? [...points, ...points.slice(0, 1)] : points;
    for (const piece of clipPath(path, r)) out.push({ kind: "polyline", points: piece, line });
  }
  return out;
}

function cutCircle(mark: Circle, r: Rect): Leaf[] {
  const { centre, fill, line, radius } = mark;
  const box: Rect = { x: centre[0] - radius, y: centre[1] - radius, width: 2 * radius, height: 2 * radius };
  if (contains(r, [box.x, box.y]) && contains(r, [box.x + box.width, box.y + box.height])) return [mark];
  const out: Leaf[] = [];
  if (fill) {
    const points = chords(centre, radius);
    out.push(...cutPolyline({ kind: "polyline", points, closed: true, fill }, r));
  }
  if (line) {
    const pieces = cutArc({ kind: "arc", centre, radius, from: 0, to: 360, line }, r);
    const [first, last] = [pieces[0], pieces.at(-1)];
    // a piece over the circle's own seam is one arc
    if (first && last && pieces.length > 1 && first.from === 0 && last.to === 360)
      out.push({ ...last, to: 360 + first.to }, ...pieces.slice(1, -1));
    else out.push(...pieces);
  }
  return out;
}

/** The circle as a polygon that lies within CHORD of it. */
function chords(centre: Point, radius: number): Point[] {
  const n = Math.max(12, Math.ceil(Math.PI / Math.acos(1 - Math.min(0.5, CHORD / radius))));
  return Array.from({ length: n }, (_, i) => onCircle(centre, radius, (360 * i) / n));
}

/** An arc stays arcs: it is split where its circle crosses the rectangle's four lines, and the inner pieces are kept. */
function cutArc(mark: Arc, r: Rect): Arc[] {
  const { centre, radius } = mark;
  const to = endOf(mark);
  const turns = new Set<number>([mark.from, to]);
  const add = (degrees: number): void => {
    const a = mark.from + wrap360(degrees - mark.from);
    if (a > mark.from && a < to) turns.add(a);
  };
  const inDegrees = (radians: number): number => (radians * 180) / Math.PI;
  for (const x of [r.x, r.x + r.width]) {
    const c = (x - centre[0]) / radius;
    if (Math.abs(c) < 1) for (const sign of [1, -1]) add(sign * inDegrees(Math.acos(c)));
  }
  for (const y of [r.y, r.y + r.height]) {
    const s = (y - centre[1]) / radius;
    if (Math.abs(s) < 1) for (const a of [inDegrees(Math.asin(s)), 180 - inDegrees(Math.asin(s))]) add(a);
  }
  const at = [...turns].sort((a, b) => a - b);
  const out: Arc[] = [];
  for (const [i, end] of at.entries()) {
    const from = at[i - 1];
    if (from === undefined || !contains(r, onCircle(centre, radius, (from + end) / 2))) continue;
    const last = out.at(-1);
    if (last && last.to === from) out[out.length - 1] = { ...last, to: end };
    else out.push({ ...mark, from, to: end });
  }
  return out;
}

/** Where the arc ends, at or above where it starts. */
export const endOf = (mark: Arc): number =>
  mark.to >= mark.from ? Math.min(mark.to, mark.from + 360) : mark.from + wrap360(mark.to - mark.from);

/** Liang and Barsky, ACM Trans. Graphics 3 (1984) 1: the pieces of an open path inside the rectangle. */
function clipPath(points: readonly Point[], r: Rect): Point[][] {
  const out: Point[][] = [];
  let run: Point[] = [];
  for (const [i, b] of points.entries()) {
    const a = points[i - 1];
    if (!a) continue;
    const span = clipSegment(a, b, r);
    if (!span) {
      run = [];
      continue;
    }
    const [t0, t1] = span;
    if (t0 > 0 || run.length === 0) out.push((run = [lerp(a, b, t0)]));
    run.push(lerp(a, b, t1));
    if (t1 < 1) run = [];
  }
  // a path that only touches the edge in a point leaves nothing to draw
  return out.filter(([a, ...rest]) => a && rest.some((p) => p[0] !== a[0] || p[1] !== a[1]));
}

const lerp = (a: Point, b: Point, t: number): Point =>
  t === 0 ? a : t === 1 ? b : [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];

/** The part of a–b inside, as shares of its length. */
function clipSegment(a: Point, b: Point, r: Rect): readonly [number, number] | undefined {
  let [t0, t1] = [0, 1];
  for (const [i, low, high] of [
    [0, r.x, r.x + r.width],
    [1, r.y, r.y + r.height],
  ] as const) {
    const d = b[i] - a[i];
    if (d === 0) {
      if (a[i] < low || a[i] > high) return undefined;
      continue;
    }
    const [enter, leave] =
      d > 0 ? [(low - a[i]) / d, (high - a[i]) / d] : [(high - a[i]) / d, (low - a[i]) / d];
    t0 = Math.max(t0, enter);
    t1 = Math.min(t1, leave);
  }
  return t0 <= t1 ? [t0, t1] : undefined;
}

/** Sutherland and Hodgman, Comm. ACM 17 (1974) 32: the polygon inside. For fills: it may run to and fro on the edge. */
function clipPolygon(points: readonly Point[], r: Rect): Point[] {
  let out = [...points];
  for (const [i, limit, side] of [
    [0, r.x, 1],
    [0, r.x + r.width, -1],
    [1, r.y, 1],
    [1, r.y + r.height, -1],
  ] as const) {
    const ring = out;
    out = [];
    for (const [k, b] of ring.entries()) {
      const a = ring.at(k - 1) ?? b;
      const [da, db] = [side * (a[i] - limit), side * (b[i] - limit)];
      if (da < 0 !== db < 0) out.push(lerp(a, b, da / (da - db)));
      if (db >= 0) out.push(b);
    }
  }
  return out;
}
