import { type Centreline, onArc, type Piece } from "../bar/index.ts";
import type { End } from "../job/types.ts";
import { GRAZE, ROOT } from "../numeric/index.ts";
import { along, sub, turn, type Vec } from "../space/index.ts";
import { type EndFrame, inFrame } from "./frame.ts";
import { type HostPiece, nearest } from "./host.ts";

/**
 * A wall line of a bar that is bent near its end: it follows the bend, carried without twist, so that over a bend it is
 * itself an arc about the bend's axis. Beyond the end it runs straight on.
 */
export interface WallPath {
  /** Place in the end's frame at back b (mm along the centreline, negative beyond the end). */
  readonly at: (b: number, offset: Vec) => Vec;
  /** The most that a wall line at radius ρ moves per millimetre of centreline. */
  readonly speed: (rho: number) => number;
}

/** The wall path of one end; `offset` in `at` is ρ(cos φ e0 + sin φ e90) in car axes. */
export function wallPath(line: Centreline, end: End, frame: EndFrame): WallPath {
  const fromEnd: readonly Piece[] = end === "A" ? line.pieces : [...line.pieces].reverse();
  const tightest = Math.min(...line.bends.map((b) => b.clr));
  const at = (b: number, offset: Vec): Vec => {
    let carried = offset;
    let left = b;
    let place = frame.landing;
    for (const piece of fromEnd) {
      const isLast = piece === fromEnd[fromEnd.length - 1];
      if (piece.kind === "straight") {
        const out = end === "A" ? -1 : 1;
        if (left <= piece.length || isLast) {
          place = along(place, piece.dir, -out * left);
          break;
        }
        place = along(place, piece.dir, -out * piece.length);
      } else {
        const swept = Math.min(left, piece.length) / piece.radius;
        const angle = end === "A" ? swept : piece.angle - swept;
        // Going in from A turns with the bend; going in from B turns against it.
        carried = turn(carried, piece.n, end === "A" ? swept : -swept);
        place = onArc(piece, angle).at;
        if (left <= piece.length) break;
      }
      left -= piece.length;
    }
    return inFrame(frame, sub(along(place, carried, 1), frame.landing));
  };
  return { at, speed: (rho) => (line.bends.length > 0 ? 1 + rho / tightest : 1) };
}

/**
 * Back (mm) at which a wall line of a bent end first meets the hosts, coming from b0 down to b1; NaN where it misses.
 * Marches by the distance to the nearest host over the line's speed, so that no surface is passed, until the step is
 * below ROOT; a closest approach within GRAZE is a touch. Slow and general: the straight lines' closed forms are
 * checked against it.
 */
export function walkToHost(
  pieces: readonly HostPiece[],
  path: WallPath,
  offset: Vec,
  rho: number,
  b0: number,
  b1: number,
): number {
  const speed = path.speed(rho);
  const clear = (b: number): number => {
    const p = path.at(b, offset);
    return nearest(pieces, p[0], p[1], p[2]);
  };
  let b = b0;
  let f = clear(b);
  let before = f;
  for (let i = 0; i < 100_000; i++) {
    const step = f / speed;
    if (step < ROOT) return b;
    const next = b - step;
    if (next < b1) return Number.NaN;
    const fNext = clear(next);
    if (f < GRAZE && f <= before && fNext > f) return b;
    before = f;
    b = next;
    f = fNext;
  }
  return Number.NaN;
}
