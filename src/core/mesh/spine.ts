// biome-ignore-all lint/style/noNonNullAssertion: starts has every piece of the bar's own centreline.
import { type Centreline, onArc, pieceAt } from "../bar/index.ts";
import { along, cross, turn, type Vec } from "../space/index.ts";

/** A place on a centreline with two directions square to it, carried from A without twist. */
export interface Carried {
  readonly at: Vec;
  /** Direction A to B. */
  readonly dir: Vec;
  /** ψ = 0 and ψ = 90°: f = dir × e. */
  readonly e: Vec;
  readonly f: Vec;
}

/**
 * The axes at station s (mm; beyond an end, its straight runs on), begun at A with `e` and carried without twist:
 * constant along a straight, turned about the bend's axis with the bend. Exact, for a bend lies in a plane.
 */
export function carriedAxes(line: Centreline, e: Vec): (s: number) => Carried {
  let carried = e;
  const starts = new Map(
    line.pieces.map((piece) => {
      const begins = { e: carried, f: cross(piece.kind === "straight" ? piece.dir : piece.n, carried) };
      if (piece.kind === "arc") carried = turn(carried, piece.n, piece.angle);
      return [piece, begins] as const;
    }),
  );
  return (s) => {
    const piece = pieceAt(line, s);
    const begins = starts.get(piece)!;
    if (piece.kind === "straight") {
      return { at: along(piece.from, piece.dir, s - piece.s0), dir: piece.dir, ...begins };
    }
    const a = (s - piece.s0) / piece.radius;
    const here = onArc(piece, a);
    const turned = turn(begins.e, piece.n, a);
    return { ...here, e: turned, f: cross(here.dir, turned) };
  };
}
