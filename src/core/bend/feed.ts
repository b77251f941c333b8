import { type Arc, onArc, type Piece, reversed } from "../bar/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { along, dot, type Vec } from "../space/index.ts";

/** One bend as the bender meets it. Lengths mm, angles radians. */
export interface FedBend {
  /** Its number from A, as everywhere else. */
  readonly n: number;
  readonly clr: number;
  readonly angle: number;
  /** Rotation from the bend made just before it, positive clockwise seen along the feed; 0 for the one made first. */
  readonly rotation: number;
  /** Straight tube before it: back to the bend made just before, or to the sawn end that is fed first. */
  readonly straight: number;
  /** Tube from its end to the other sawn end while that is still straight. */
  readonly rest: number;
  readonly arc: Arc;
}

/** A bar in the order of bending. */
export interface Feed {
  readonly od: number;
  /** The end that goes through the die first, and the other. */
  readonly lead: End;
  readonly tail: End;
  readonly bends: readonly FedBend[];
}

/** What each end of the blank stands beyond its landing (mm): trim less the least back of its cope. */
export const overhang = (
  bar: ResolvedBar,
  leastBack: Readonly<Record<End, number>>,
): Record<End, number> => ({
  A: bar.trim.A - leastBack.A,
  B: bar.trim.B - leastBack.B,
});

/** Tube that a bend uses beyond its arc R·θ (mm). */
export const growth = (bar: ResolvedBar, bend: { readonly clr: number; readonly angle: number }): number =>
  ((bar.die?.arcFactor ?? 1) - 1) * bend.clr * bend.angle;

/**
 * The bar as it is fed from `fromEnd`: bends in order of bending, straights with trim and back taken in.
 *
 * Fed from B the bar is read from B to A: angles and rotation signs stay, their order turns round.
 */
export function feedOf(bar: ResolvedBar, leastBack: Readonly<Record<End, number>>): Feed {
  const lead = bar.fromEnd;
  const tail: End = lead === "A" ? "B" : "A";
  const line = lead === "A" ? bar.centreline : reversed(bar.centreline);
  const over = overhang(bar, leastBack);
  // Read from B, corners are numbered from B, those left out too.
  const all = line.bends.length + line.small.length;
  const bends = line.bends.map((b, i): FedBend => {
    const later = line.bends.slice(i + 1).reduce((sum, next) => sum + growth(bar, next), 0);
    return {
      n: lead === "A" ? b.n : all + 1 - b.n,
      clr: b.clr,
      angle: b.angle,
      rotation: b.rotation,
      straight: b.straightBefore + (i === 0 ? over[lead] : 0),
      rest: line.length - b.end + over[tail] + later,
      arc: b.arc,
    };
  });
  return { od: bar.tube.od, lead, tail, bends };
}

/** A bar part of the way through its bends: its pieces from the sawn end that was fed first to the other one. */
export interface PartBent {
  readonly pieces: readonly Piece[];
  readonly start: Vec;
  readonly finish: Vec;
}

/** The bar as it is once bends 0 … `last` of the feed are made and the rest of the tube is straight (car axes). */
export function partBent(feed: Feed, last: number): PartBent {
  const pieces: Piece[] = [];
  let s = 0;
  const put = (piece: Piece): void => {
    pieces.push({ ...piece, s0: s });
    s += piece.length;
  };
  const [first] = feed.bends;
  const bent = feed.bends[last];
  if (!first || !bent) throw new RangeError(`the feed has no bend ${last}`);
  for (const { arc, straight } of feed.bends.slice(0, last + 1)) {
    const begins = along(arc.centre, arc.x, arc.radius);
    put({ kind: "straight", s0: 0, from: along(begins, arc.y, -straight), dir: arc.y, length: straight });
    put(arc);
  }
  const { arc, rest } = bent;
  const { at, dir } = onArc(arc, arc.angle);
  put({ kind: "straight", s0: 0, from: at, dir, length: rest });
  const start = along(along(first.arc.centre, first.arc.x, first.arc.radius), first.arc.y, -first.straight);
  return { pieces, start, finish: along(at, dir, rest) };
}

/**
 * How far the lowest point of a tube's outside lies above the plane through `origin` square to `up` (mm; below: less
 * than 0).
 *
 * A centreline point at height h with direction d has its lowest outside point at h − r·√(1 − (d·up)²). On a straight
 * that is least at an end. On an arc h = R·ρ·cos u and d·up = −ρ·sin u (u from the arc's topmost place), and the
 * slope ρ·sin u·(−R + rρ·cos u/√(1 − ρ² sin² u)) is 0 only where sin u = 0, since R > r: an end, or the arc's lowest.
 */
export function lowest(pieces: readonly Piece[], r: number, origin: Vec, up: Vec): number {
  const height = (p: Vec): number => dot(p, up) - dot(origin, up);
  const under = (p: Vec, d: Vec): number => height(p) - r * Math.sqrt(Math.max(0, 1 - dot(d, up) ** 2));
  let least = Number.POSITIVE_INFINITY;
  for (const piece of pieces) {
    if (piece.kind === "straight") {
      const { from, dir, length } = piece;
      least = Math.min(least, under(from, dir), under(along(from, dir, length), dir));
      continue;
    }
    const ends = [onArc(piece, 0), onArc(piece, piece.angle)];
    least = Math.min(least, ...ends.map(({ at, dir }) => under(at, dir)));
    const bottom = Math.atan2(-dot(piece.y, up), -dot(piece.x, up));
    const turned = bottom < 0 ? bottom + 2 * Math.PI : bottom;
    if (turned < piece.angle) least = Math.min(least, height(onArc(piece, turned).at) - r);
  }
  return least;
}
