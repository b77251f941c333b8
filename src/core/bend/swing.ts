import { onArc, type Piece } from "../bar/index.ts";
import type { Job } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { along, dot, neg, sub, type Vec } from "../space/index.ts";
import { type Feed, partBent } from "./feed.ts";
import { angleToSet } from "./springback.ts";
import type { Hand } from "./turns.ts";

/** The die, its clamp and the machine's bed fill so much behind the die: nobody is there (mm; common practice, no source). */
const MACHINE = 300;
/**
 * Beside the tube, on either side, the room of one who holds its tail or works the machine (mm): the 500 that ISO 13854
 * keeps clear for a body (from memory), and a hand's breadth to reach the tube.
 */
export const ASIDE = 600;
/** A tall man from the floor (mm): ISO 7250's stature, 95th percentile with shoes, rounded up (from memory). */
const TALL = 1950;
/** A bender whose height the job leaves out stands somewhere between these (mm; common practice, no source). */
const HEIGHTS = { least: 600, most: 1200 };
/** Places along the bent part are this far apart at most (mm): a miss of half of it is a hair to a person. */
const EVERY = 5;

/** The farthest that the bent part comes back past the die within reach of who works there, at one bend. */
export interface Swing {
  readonly bend: number;
  /** mm behind the die; 0: it never comes back there. */
  readonly reach: number;
  readonly side: Hand;
}

/**
 * How far the tube ahead of the die comes back, at each bend, into the room where its operator works.
 *
 * The room: behind the die, farther than the machine itself (300 mm), within 600 mm of the tube to either side, from
 * the floor to 1950 mm over it. The setting is that of `turnsOf`: while a bend is made all that is ahead of its
 * beginning turns as one piece about the die's upright axis toward the turn side, through the angle set, and keeps its
 * heights. A place at radius ρ and angle θ then runs along a level arc; the farthest back within the strip is at one
 * of that arc's ends, straight behind the axis, or on the strip's edge, and each is tried.
 * Units: mm; angles radians. Without a height every height at which a bender stands is taken.
 * Range: the tail, tube turned or lifted by hand between bends, springing out of the die and a person elsewhere than
 * behind the die are not judged; nor is anything that has less than 300 mm of reach.
 */
export function swings(bar: ResolvedBar, feed: Feed, bender: Job["bender"]): readonly Swing[] {
  const { height, turnSide } = bender;
  const r = feed.od / 2;
  const low = -(height ?? HEIGHTS.most) - r;
  const high = TALL - (height ?? HEIGHTS.least) + r;
  return feed.bends.map((bend, i): Swing => {
    const { arc } = bend;
    const forward = neg(arc.y);
    const inward = neg(arc.x);
    const up = turnSide === "left" ? neg(arc.n) : arc.n;
    const set = bar.die ? angleToSet(bar.die, bend.angle).set : bend.angle;
    const through = Math.max(bend.angle, set);
    let found = { reach: 0, aside: 0 };
    // up to the beginning of this bend; its own arc is at the die, within the machine
    for (const at of partBent(feed, i).pieces.slice(0, -2).flatMap(places)) {
      const v = sub(at, arc.centre);
      const h = dot(v, up);
      if (h < low || h > high) continue;
      const best = farthestBack(dot(v, forward), dot(v, inward), through, arc.radius, ASIDE + r);
      if (best && best.reach > found.reach) found = best;
    }
    const reach = found.reach > MACHINE ? found.reach : 0;
    const other = turnSide === "left" ? "right" : "left";
    return { bend: bend.n, reach, side: found.aside >= 0 ? turnSide : other };
  });
}

/** The farthest back that a place comes within the strip; `aside`: from the tube's line, positive to the turn side. */
function farthestBack(
  x: number,
  y: number,
  through: number,
  axis: number,
  strip: number,
): { readonly reach: number; readonly aside: number } | undefined {
  const rho = Math.hypot(x, y);
  const from = Math.atan2(y, x);
  const edges = [strip - axis, -strip - axis].flatMap((e) => {
    const sin = e / rho;
    return Math.abs(sin) <= 1 ? [Math.asin(sin), Math.PI - Math.asin(sin)] : [];
  });
  const tried = [from, from + through, ...[Math.PI, ...edges].map((a) => after(a, from))];
  let best: { reach: number; aside: number } | undefined;
  for (const angle of tried) {
    if (angle > from + through + 1e-12) continue;
    const aside = axis + rho * Math.sin(angle);
    const reach = -rho * Math.cos(angle);
    if (Math.abs(aside) <= strip + 1e-9 && reach > 0 && !(best && best.reach >= reach))
      best = { reach, aside };
  }
  return best;
}

/** The same direction, from `from` on once round. */
const after = (angle: number, from: number): number =>
  angle + 2 * Math.PI * Math.ceil((from - angle) / (2 * Math.PI) - 1e-12);

/** Places along a piece, both ends among them. */
function places(piece: Piece): Vec[] {
  const n = Math.max(1, Math.ceil(piece.length / EVERY));
  return Array.from({ length: n + 1 }, (_, k) =>
    piece.kind === "straight"
      ? along(piece.from, piece.dir, (piece.length * k) / n)
      : onArc(piece, (piece.angle * k) / n).at,
  );
}
