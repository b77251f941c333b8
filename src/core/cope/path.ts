// biome-ignore-all lint/style/noNonNullAssertion: a path has one piece at least, and i is checked against its length before it is raised.
import type { Centreline } from "../bar/index.ts";
import type { End } from "../job/types.ts";
import { add, neg, scale, sub, turn, type Vec } from "../space/index.ts";
import { type EndAxes, inAxes } from "./axes.ts";

/**
 * One piece of a bar's end as its wall lines run along it, in the end's axes, from the landing inward (mm). `at` is
 * the centreline at back b0, `dir` its direction there (inward), `e0` and `e90` the zero line's and its quarter's
 * direction as carried there without twist.
 */
export interface PathPiece {
  readonly b0: number;
  readonly b1: number;
  readonly at: Vec;
  readonly dir: Vec;
  readonly e0: Vec;
  readonly e90: Vec;
  /** Of a bend: from its centre to `at`, length 1; the normal of its plane; its centreline radius. */
  readonly bend?: { readonly out: Vec; readonly normal: Vec; readonly radius: number };
}

/** The pieces of one end, the landing's first. Beyond the landing (b < 0) the first runs straight on. */
export type EndPath = readonly PathPiece[];

/** The path of the wall lines of one end of a bar: they follow each bend, carried without twist. */
export function endPath(line: Centreline, end: End, axes: EndAxes): EndPath {
  const inward = end === "A" ? line.pieces : [...line.pieces].reverse();
  const into = (p: Vec): Vec => inAxes(axes, sub(p, axes.landing));
  let [e0, e90] = [axes.zero, axes.quarter];
  let b0 = 0;
  return inward.map((piece): PathPiece => {
    const here = { b0, b1: b0 + piece.length, e0: inAxes(axes, e0), e90: inAxes(axes, e90) };
    b0 = here.b1;
    if (piece.kind === "straight") {
      const from = end === "A" ? piece.from : add(piece.from, scale(piece.dir, piece.length));
      const dir = inAxes(axes, end === "A" ? piece.dir : neg(piece.dir));
      return { ...here, at: into(from), dir };
    }
    // From B a bend is run from its end back: about the opposite normal.
    const { centre, x, y, radius, angle } = piece;
    const normal = end === "A" ? piece.n : neg(piece.n);
    const out = end === "A" ? x : add(scale(x, Math.cos(angle)), scale(y, Math.sin(angle)));
    const dir = turn(out, normal, Math.PI / 2);
    [e0, e90] = [turn(e0, normal, angle), turn(e90, normal, angle)];
    return {
      ...here,
      at: into(add(centre, scale(out, radius))),
      dir: inAxes(axes, dir),
      bend: { out: inAxes(axes, out), normal: inAxes(axes, normal), radius },
    };
  });
}

/** The piece that back b lies on. */
export function pathPieceAt(path: EndPath, b: number): PathPiece {
  let i = 0;
  while (i + 1 < path.length && b >= path[i + 1]!.b0) i++;
  return path[i]!;
}

/**
 * A wall line on one piece by its own length s (mm, from `b0` inward): a straight, or an arc about the bend's axis.
 * `x` and `y` are its place across the tube, along e0 and e90 at the landing.
 */
export interface WallLine {
  readonly at: Vec;
  readonly dir: Vec;
  /** Of an arc: its centre, from there to `at` with length 1, and its radius; 1/Infinity is a straight's curvature. */
  readonly centre: Vec;
  readonly out: Vec;
  readonly radius: number;
  /** Length of the line per millimetre of centreline. */
  readonly speed: number;
}

/** The wall line at (x, y) across the tube on one piece. */
export function wallLine(piece: PathPiece, x: number, y: number): WallLine {
  const off: Vec = [
    piece.e0[0] * x + piece.e90[0] * y,
    piece.e0[1] * x + piece.e90[1] * y,
    piece.e0[2] * x + piece.e90[2] * y,
  ];
  const at = add(piece.at, off);
  const { bend, dir } = piece;
  if (!bend) return { at, dir, centre: at, out: dir, radius: Infinity, speed: 1 };
  const { out, radius: clr } = bend;
  const radius = clr + off[0] * out[0] + off[1] * out[1] + off[2] * out[2];
  return { at, dir, centre: sub(at, scale(out, radius)), out, radius, speed: radius / clr };
}

/** Place of a wall line at length s. */
export function onWall(line: WallLine, s: number): Vec {
  const { at, dir, centre, out, radius } = line;
  if (radius === Infinity) return [at[0] + dir[0] * s, at[1] + dir[1] * s, at[2] + dir[2] * s];
  const a = radius * Math.cos(s / radius);
  const b = radius * Math.sin(s / radius);
  return [
    centre[0] + out[0] * a + dir[0] * b,
    centre[1] + out[1] * a + dir[1] * b,
    centre[2] + out[2] * a + dir[2] * b,
  ];
}

/** Place (end's axes, mm) of the wall line at (x, y) across the tube, at back b along the centreline. */
export function wallAt(path: EndPath, x: number, y: number, b: number): Vec {
  const piece = pathPieceAt(path, b);
  const line = wallLine(piece, x, y);
  return onWall(line, (b - piece.b0) * line.speed);
}
