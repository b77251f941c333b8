// biome-ignore-all lint/style/noNonNullAssertion: a centreline has one piece at least; nearest is an index found in inward.
import type { Bend, Centreline } from "../bar/index.ts";
import type { End } from "../job/types.ts";
import { rad } from "../numeric/index.ts";
import {
  along,
  angleBetween,
  cross,
  dot,
  FORWARD,
  neg,
  rejection,
  scale,
  turn,
  UP,
  unit,
  type Vec,
} from "../space/index.ts";

/** The axes in which an end's cut is described (car axes, mm). */
export interface EndAxes {
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

/** A bend that turns less has no outside that a hand or an eye would find: it carries no zero line. */
const CARRIES = rad(3) - 1e-9;

/**
 * The axes of one end. The zero line is the outside of the nearest bend of at least 3°, carried to the end without
 * twist where smaller bends lie between; on a bar without such a bend the line that faces up in the car at that end, or
 * forward where the end's straight stands within 1° of plumb (geometry.md, "A cope" and "Bends too small to make").
 */
export function endAxes(line: Centreline, end: End): EndAxes {
  const piece = end === "A" ? line.pieces[0]! : line.pieces[line.pieces.length - 1]!;
  if (piece.kind !== "straight") throw new Error("a centreline begins and ends with a straight");
  const out = end === "A" ? neg(piece.dir) : piece.dir;
  const landing = end === "A" ? line.start : line.finish;
  const inward = end === "A" ? line.bends : [...line.bends].reverse();
  const nearest = inward.findIndex((b) => b.angle >= CARRIES);
  let zero: Vec;
  let zeroLine: string;
  if (nearest >= 0) {
    const bend = inward[nearest]!;
    zero = inward.slice(0, nearest).reduceRight((v, b) => past(b, v, end), outside(bend, end));
    zeroLine = `bend ${bend.n}`;
  } else {
    const plumb = Math.min(angleBetween(out, UP), angleBetween(neg(out), UP)) <= PLUMB;
    zero = unit(rejection(plumb ? FORWARD : UP, out));
    zeroLine = plumb ? "forward" : "up";
  }
  return { landing, out, zero, quarter: cross(out, zero), zeroLine };
}

/** The outside of a bend where it begins, seen from an end; length 1. */
function outside({ arc: { x, y, angle } }: Bend, end: End): Vec {
  return end === "A" ? x : unit(along(scale(x, Math.cos(angle)), y, Math.sin(angle)));
}

/** A direction square to the tube on the far side of a bend, carried over it without twist toward an end. */
const past = ({ arc }: Bend, v: Vec, end: End): Vec => turn(v, arc.n, end === "A" ? -arc.angle : arc.angle);

/** A direction of the car in the end's axes: along e0, e90 and u. */
export const inAxes = (axes: EndAxes, v: Vec): Vec => [
  dot(v, axes.zero),
  dot(v, axes.quarter),
  dot(v, axes.out),
];
