import type { Centreline } from "../bar/index.ts";
import type { End } from "../job/types.ts";
import { rad } from "../numeric/index.ts";
import { between, cross, dot, FORWARD, neg, scale, square, UP, unit, type Vec } from "../space/index.ts";

/** The frame in which an end's cut is described (car axes, mm). */
export interface EndFrame {
  /** Where the centreline ends. */
  readonly landing: Vec;
  /** u: outward direction of the centreline. */
  readonly out: Vec;
  /** e0: the zero line's direction. */
  readonly zero: Vec;
  /** e90 = u × e0; φ grows from e0 toward it. */
  readonly quarter: Vec;
  /** "up", "forward" or "bend N". */
  readonly zeroLine: string;
}

/** A bar within this of plumb has no side that faces up: its zero line faces forward. */
const PLUMB = rad(1);

/**
 * The frame of one end. The zero line is the outside of the bend nearest that end; on a bar without bends the line
 * that faces up in the car, or forward where the bar stands within 1° of plumb (geometry.md, "A cope").
 */
export function endFrame(line: Centreline, end: End): EndFrame {
  const piece = end === "A" ? line.pieces[0]! : line.pieces[line.pieces.length - 1]!;
  if (piece.kind !== "straight") throw new Error("a centreline begins and ends with a straight");
  const out = end === "A" ? neg(piece.dir) : piece.dir;
  const landing = end === "A" ? line.start : line.finish;
  const bend = end === "A" ? line.bends[0] : line.bends[line.bends.length - 1];
  let zero: Vec;
  let zeroLine: string;
  if (bend) {
    const { x, y, angle } = bend.arc;
    zero = end === "A" ? x : unit(sum(scale(x, Math.cos(angle)), scale(y, Math.sin(angle))));
    zeroLine = `bend ${bend.n}`;
  } else {
    const plumb = Math.min(between(out, UP), between(neg(out), UP)) <= PLUMB;
    zero = unit(square(plumb ? FORWARD : UP, out));
    zeroLine = plumb ? "forward" : "up";
  }
  return { landing, out, zero, quarter: cross(out, zero), zeroLine };
}

const sum = (a: Vec, b: Vec): Vec => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

/** A direction of the car in the end's frame: along e0, e90 and u. */
export const inFrame = (frame: EndFrame, v: Vec): Vec => [
  dot(v, frame.zero),
  dot(v, frame.quarter),
  dot(v, frame.out),
];
