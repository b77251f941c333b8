// biome-ignore-all lint/style/noNonNullAssertion: a shape has a turn, a radius and a number for each angle, and one straight more
import { type Arc, type Bend, type Centreline, type Piece, placeAt } from "../bar/index.ts";
import { along, anyPerpendicular, cross, neg, scale, turn, type Vec } from "../space/index.ts";

/** A bent bar by its own measures, wherever it lies. Lengths mm, angles radians, listed from end A. */
export interface BarShape {
  /** One more than there are bends; those at the ends run to wherever the bar ends. */
  readonly straights: readonly number[];
  readonly angles: readonly number[];
  /** Turn before each bend, the first 0; positive clockwise seen from A toward B. */
  readonly turns: readonly number[];
  /** Centreline radius of each bend. */
  readonly radii: readonly number[];
  /** Number of each bend, as the card has it. */
  readonly numbers: readonly number[];
}

/** Where a bar begins: its end A, which way it runs there, and which way its first bend goes (both of length 1). */
export interface Start {
  readonly at: Vec;
  readonly dir: Vec;
  readonly inside: Vec;
}

/** The measures of a centreline. */
export const shapeOf = (line: Centreline): BarShape => ({
  straights: [...line.bends.map((b) => b.straightBefore), line.lastStraight],
  angles: line.bends.map((b) => b.angle),
  turns: line.bends.map((b) => b.rotation),
  radii: line.bends.map((b) => b.clr),
  numbers: line.bends.map((b) => b.n),
});

/** Where a centreline begins. */
export function startOf(line: Centreline): Start {
  const { dir } = placeAt(line, 0);
  const first = line.bends[0];
  return { at: line.start, dir, inside: first ? neg(first.arc.x) : anyPerpendicular(dir) };
}

/**
 * The centreline of a shape laid at a start (mm, car axes): the slow, plain walk along the bar, straight by straight
 * and bend by bend. Range: any angles above 0 and below π; a straight below 0 is laid as it stands.
 */
export function lineOf(shape: BarShape, start: Start): Centreline {
  const pieces: Piece[] = [];
  const bends: Bend[] = [];
  let { at, dir, inside } = start;
  let s = 0;
  shape.straights.forEach((length, i) => {
    pieces.push({ kind: "straight", s0: s, from: at, dir, length });
    s += length;
    at = along(at, dir, length);
    const angle = shape.angles[i];
    if (angle === undefined) return;
    const rotation = shape.turns[i]!;
    if (i > 0) inside = turn(inside, dir, rotation);
    const radius = shape.radii[i]!;
    const x = neg(inside);
    const n = cross(dir, inside);
    const centre = along(at, inside, radius);
    const arc: Arc = { kind: "arc", s0: s, centre, x, y: dir, n, radius, angle, length: radius * angle };
    pieces.push(arc);
    const corner = along(at, dir, radius * Math.tan(angle / 2));
    bends.push({
      n: shape.numbers[i]!,
      corner,
      clr: radius,
      angle,
      rotation: i > 0 ? rotation : 0,
      start: s,
      end: s + arc.length,
      straightBefore: length,
      arc,
    });
    s += arc.length;
    at = along(along(centre, x, radius * Math.cos(angle)), dir, radius * Math.sin(angle));
    const before = dir;
    dir = along(scale(before, Math.cos(angle)), inside, Math.sin(angle));
    inside = along(scale(inside, Math.cos(angle)), before, -Math.sin(angle));
  });
  return {
    pieces,
    bends,
    small: [],
    length: s,
    lastStraight: shape.straights[shape.straights.length - 1]!,
    start: start.at,
    finish: at,
  };
}
