// biome-ignore-all lint/style/noNonNullAssertion: a centreline has one piece at least, and i is checked against the number of pieces before it is raised.
import { NO_LENGTH, SAME_PLACE } from "../numeric/index.ts";
import { along, dist, dot, sub, type Vec } from "../space/index.ts";
import type { Arc, Centreline, Piece } from "./types.ts";

/** A place on a centreline and the direction (A to B, length 1) in which it runs there. */
export interface OnLine {
  readonly at: Vec;
  readonly dir: Vec;
}

/** The piece that station s (mm) lies on; beyond an end, that end's straight. */
export function pieceAt(line: Centreline, s: number): Piece {
  const { pieces } = line;
  let i = 0;
  while (i + 1 < pieces.length && s >= pieces[i + 1]!.s0) i++;
  return pieces[i]!;
}

/** Place and direction at station s (mm from A); beyond an end the end straight runs on. */
export function placeAt(line: Centreline, s: number): OnLine {
  const piece = pieceAt(line, s);
  const t = s - piece.s0;
  return piece.kind === "straight"
    ? { at: along(piece.from, piece.dir, t), dir: piece.dir }
    : onArc(piece, t / piece.radius);
}

/** Place and direction on an arc, `a` radians after its start. */
export function onArc(arc: Arc, a: number): OnLine {
  const c = Math.cos(a);
  const s = Math.sin(a);
  return {
    at: along(along(arc.centre, arc.x, arc.radius * c), arc.y, arc.radius * s),
    dir: along([-arc.x[0] * s, -arc.x[1] * s, -arc.x[2] * s], arc.y, c),
  };
}

/** Station (mm) of the closest point of one piece, and how far it is (mm). */
export function closestOnPiece(piece: Piece, p: Vec): { readonly s: number; readonly distance: number } {
  if (piece.kind === "straight") {
    const t = Math.min(piece.length, Math.max(0, dot(sub(p, piece.from), piece.dir)));
    return { s: piece.s0 + t, distance: dist(p, along(piece.from, piece.dir, t)) };
  }
  const v = sub(p, piece.centre);
  const a = Math.atan2(dot(v, piece.y), dot(v, piece.x));
  // The far half of the circle is nearest to whichever end of the arc is nearer in angle.
  const middle = piece.angle / 2;
  const fromMiddle = a - middle - 2 * Math.PI * Math.round((a - middle) / (2 * Math.PI));
  const t = Math.min(piece.angle, Math.max(0, middle + fromMiddle));
  return { s: piece.s0 + t * piece.radius, distance: dist(p, onArc(piece, t).at) };
}

/** The closest point of a centreline to p, 0 ≤ s ≤ length; and a second one as near (within 0.001 mm), if any. */
export function closestTo(
  line: Centreline,
  p: Vec,
): { readonly s: number; readonly distance: number; readonly tie?: number } {
  const found = line.pieces.map((piece) => closestOnPiece(piece, p));
  const best = found.reduce((a, b) => (b.distance < a.distance ? b : a));
  const tie = found.find(
    (f) => Math.abs(f.distance - best.distance) <= SAME_PLACE && Math.abs(f.s - best.s) > 1,
  );
  return tie ? { ...best, tie: tie.s } : best;
}

export type Crossings =
  | { readonly kind: "stations"; readonly at: readonly number[] }
  | { readonly kind: "in-plane" };

/**
 * Where a centreline crosses the plane in which coordinate `axis` (0 x, 1 y, 2 z) is `value` (mm), as stations with
 * 0 ≤ s ≤ length, ascending; a bend that just touches the plane crosses it once. A leg within 0.001 mm of the plane
 * all along has no crossing to name: "in-plane".
 */
export function crossings(line: Centreline, axis: 0 | 1 | 2, value: number): Crossings {
  const at: number[] = [];
  for (const piece of line.pieces) {
    if (piece.kind === "straight") {
      const h = piece.from[axis] - value;
      const rise = piece.dir[axis] * piece.length;
      if (piece.length > SAME_PLACE && Math.abs(h) <= SAME_PLACE && Math.abs(h + rise) <= SAME_PLACE) {
        return { kind: "in-plane" };
      }
      if (Math.abs(rise) <= NO_LENGTH) continue;
      const t = (-h / rise) * piece.length;
      if (t >= -SAME_PLACE && t <= piece.length + SAME_PLACE) {
        at.push(piece.s0 + Math.min(piece.length, Math.max(0, t)));
      }
    } else at.push(...arcCrossings(piece, axis, value));
  }
  at.sort((a, b) => a - b);
  return { kind: "stations", at: at.filter((s, i) => i === 0 || s - at[i - 1]! > 2 * SAME_PLACE) };
}

/** centre + R(x cos a + y sin a) reaches the plane where R·k·cos(a − a₀) = value − centre, k = |(x, y)| on the axis. */
function arcCrossings(arc: Arc, axis: 0 | 1 | 2, value: number): number[] {
  const k = Math.hypot(arc.x[axis], arc.y[axis]) * arc.radius;
  const h = value - arc.centre[axis];
  if (k <= NO_LENGTH || Math.abs(h) > k + SAME_PLACE) return [];
  const a0 = Math.atan2(arc.y[axis], arc.x[axis]);
  const swing = Math.acos(Math.min(1, Math.max(-1, h / k)));
  const slack = SAME_PLACE / arc.radius;
  const out: number[] = [];
  for (const a of swing === 0 || swing === Math.PI ? [a0 + swing] : [a0 - swing, a0 + swing]) {
    const turns = a - 2 * Math.PI * Math.floor((a + slack) / (2 * Math.PI));
    if (turns <= arc.angle + slack) {
      out.push(arc.s0 + arc.radius * Math.min(arc.angle, Math.max(0, turns)));
    }
  }
  return out;
}
