import { type Asked, type Checker, interpolate, type Pose, turnAngle } from "../scene/index.ts";

/** Up to this much overlap counts as touching (mm). */
export const TOUCH = 0.01;

/** What a search accepts while it touches (mm): the rest of TOUCH is for chords, wall lines and what lies between steps. */
export const SEARCH_TOUCH = 0.003;

export interface Advance {
  /** How far along it is clear: 0 at the first pose, 1 at the second. */
  readonly reached: number;
  /** Least distance seen on the way that is clear (mm). */
  readonly least: number;
  /** What stopped it, where it was stopped (index of the scene's list). */
  readonly by?: number;
}

export interface Stride {
  /** Distance to keep (mm); negative: overlap allowed. */
  readonly keep: number;
  /** Shortest step (mm of the bar's fastest point). */
  readonly step: number;
  readonly asked?: Asked;
}

/** How far the fastest point of a bar goes between two poses, at most (mm): shift + angle · reach. */
export const travel = (a: Pose, b: Pose, reach: number): number =>
  Math.hypot(b.at[0] - a.at[0], b.at[1] - a.at[1], b.at[2] - a.at[2]) + turnAngle(a.turn, b.turn) * reach;

/**
 * Follows the motion between two poses by conservative advancement (B. Mirtich, dissertation, Berkeley 1996): with a
 * distance d to everything, no point may move farther than d before it could touch, so that far steps jump nothing.
 * Where the bar touches, steps are `step` long; two tubes' distance cannot dip by more than step² / (8 · 20 mm) between.
 */
export function advance(check: Checker, reach: number, a: Pose, b: Pose, stride: Stride): Advance {
  const total = travel(a, b, reach);
  let t = 0;
  let least = Infinity;
  let clear = 0;
  for (;;) {
    const got = check(interpolate(a, b, t), stride.asked);
    if (!(got.least >= stride.keep)) return { reached: clear, least, by: got.nearest };
    clear = t;
    least = Math.min(least, got.least);
    if (t >= 1 || total === 0) return { reached: 1, least };
    t = Math.min(1, t + Math.max(stride.step, got.least - stride.keep) / total);
  }
}
