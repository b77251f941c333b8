import { type Centreline, onArc, type Piece, placeAt, type Straight } from "../core/bar/index.ts";
import { rad } from "../core/numeric/index.ts";
import { along, cross, dot, type Vec } from "../core/space/index.ts";
import type { Point } from "../draw/index.ts";

/** From where a picture is seen: the car directions that run right and up on the sheet. The viewer stands at right × up. */
export interface View {
  readonly right: Vec;
  readonly up: Vec;
}

export const toViewer = (view: View): Vec => cross(view.right, view.up);

/** The car from its left, forward to the left of the sheet. */
export const FROM_LEFT: View = { right: [-1, 0, 0], up: [0, 0, 1] };
/** From above, forward to the left of the sheet. */
export const FROM_ABOVE: View = { right: [-1, 0, 0], up: [0, -1, 0] };
/** From in front, the driver's left to the right of the sheet. */
export const FROM_FRONT: View = { right: [0, 1, 0], up: [0, 0, 1] };

/** On the sheet (y down), mm at true size. */
export const project = (p: Vec, view: View): Point => [dot(p, view.right), -dot(p, view.up)];

export interface Silhouette {
  /** One piece of a tube, closed. */
  readonly rim: readonly Point[];
  readonly sides: readonly (readonly Point[])[];
  /** How near the viewer its middle is. */
  readonly near: number;
  readonly axis: readonly Point[];
}

/**
 * What is seen of a tube piece by piece. A tube is the envelope of equal balls along its centreline and each ball is
 * seen as a circle, so its outline is the projected centreline offset by its radius to both sides (exact).
 */
export function silhouettes(line: Centreline, radius: number, view: View): Silhouette[] {
  const body = line.pieces
    .filter((piece) => piece.length > 1e-6)
    .map((piece) => (endOn(piece, view) ? circleSeen(piece, radius, view) : silhouette(piece, radius, view)));
  const rims = [placeAt(line, 0), placeAt(line, line.length)].map(({ at, dir }) =>
    closed(rimSeen(at, dir, radius, view), dot(at, toViewer(view))),
  );
  return [...rims, ...body];
}

const closed = (rim: readonly Point[], near: number, axis: readonly Point[] = []): Silhouette => ({
  rim,
  sides: [[...rim, ...rim.slice(0, 1)]],
  near,
  axis,
});

/** A straight that runs toward the viewer has no sides: it is seen as its circle. */
const endOn = (piece: Piece, view: View): piece is Straight =>
  piece.kind === "straight" && Math.hypot(...project(piece.dir, view)) < 1e-6;

function circleSeen(piece: Straight, radius: number, view: View): Silhouette {
  const ends = [piece.from, along(piece.from, piece.dir, piece.length)] as const;
  const near = Math.max(...ends.map((p) => dot(p, toViewer(view))));
  return closed(
    rimSeen(piece.from, piece.dir, radius, view),
    near,
    ends.map((p) => project(p, view)),
  );
}

function silhouette(piece: Piece, radius: number, view: View): Silhouette {
  const count = piece.kind === "straight" ? 1 : Math.max(2, Math.ceil(piece.angle / rad(3)));
  const left: Point[] = [];
  const right: Point[] = [];
  const axis: Point[] = [];
  let near = 0;
  for (let i = 0; i <= count; i++) {
    const t = i / count;
    const { at, dir } =
      piece.kind === "straight"
        ? { at: along(piece.from, piece.dir, piece.length * t), dir: piece.dir }
        : onArc(piece, piece.angle * t);
    const p = project(at, view);
    const d = project(dir, view);
    const length = Math.hypot(d[0], d[1]);
    const n: Point = length > 1e-9 ? [-d[1] / length, d[0] / length] : [1, 0];
    axis.push(p);
    left.push([p[0] + radius * n[0], p[1] + radius * n[1]]);
    right.push([p[0] - radius * n[0], p[1] - radius * n[1]]);
    near += dot(at, toViewer(view)) / (count + 1);
  }
  return { rim: [...left, ...right.reverse()], sides: [left, [...right].reverse()], near, axis };
}

/** Ends of a tube: the circle of its cut (square here) seen slantwise. */
function rimSeen(at: Vec, dir: Vec, radius: number, view: View): Point[] {
  const seed: Vec = Math.abs(dir[0]) < 0.6 ? [1, 0, 0] : [0, 1, 0];
  const e = cross(dir, seed);
  const l = Math.hypot(e[0], e[1], e[2]);
  const a: Vec = [e[0] / l, e[1] / l, e[2] / l];
  const b = cross(dir, a);
  return Array.from({ length: 48 }, (_, i) => {
    const t = rad(i * 7.5);
    return project(along(along(at, a, radius * Math.cos(t)), b, radius * Math.sin(t)), view);
  });
}

export function bounds(points: readonly Point[]): { x: number; y: number; width: number; height: number } {
  let [left, top, right, foot] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    foot = Math.max(foot, y);
  }
  return { x: left, y: top, width: right - left, height: foot - top };
}
