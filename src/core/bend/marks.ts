import type { Bend } from "../bar/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { growth, overhang } from "./feed.ts";
import { type AngleToSet, angleToSet } from "./springback.ts";
import type { ReadingErrors } from "./testbend.ts";

/** One bend on the card. Lengths mm, angles radians. */
export interface PlannedBend {
  /** Counted from A. */
  readonly n: number;
  readonly angle: number;
  /** Turn from the bend before, a property of the bar: positive clockwise seen from A toward B; 0 for bend 1. */
  readonly rotation: number;
  /** Station of the bend's start, from the A landing. */
  readonly start: number;
  /** From the A end of the blank with trim to the mark, when that end is fed first. */
  readonly mark: number;
  /** The same bend's mark from the B end of the blank with trim, when that end is fed first. */
  readonly markB: number;
  readonly clr: number;
  readonly straightBefore: number;
  /** What to set at the bender; absent while the die has neither springback nor test bends. */
  readonly set?: AngleToSet;
}

/** What to saw and where to mark. Lengths mm, angles radians. */
export interface BendPlan {
  /** Developed length of the ideal centreline, landing to landing. */
  readonly length: number;
  /** Longest point to longest point, with what the bends take beyond R·θ; no trim. */
  readonly blank: number;
  /** Left over at each end; the stick is sawn to blank + trim.A + trim.B. */
  readonly trim: Readonly<Record<End, number>>;
  /** From A, whatever end is fed first. */
  readonly bends: readonly PlannedBend[];
  /** Straight behind the last bend, to the B landing. */
  readonly lastStraight: number;
}

/**
 * Blank length and marks of a bar.
 *
 * Convention: bends from A; `leastBack` is how far the long point of each end's cope lies back from its landing
 * (square end or none: 0; less than 0 where the cope runs on past the landing).
 * Units: mm in and out, angles radians. `errors` is the shop's, for the ± of the angle to set.
 * Formula (derived: tube is used up bend by bend), g_j = (arc factor − 1)·R_j·θ_j:
 * blank = L − back A − back B + Σ g; mark_i = trim A + start_i − back A + Σ_{j<i} g_j + the die's mark;
 * markB_i = trim B + (L − end_i) − back B + Σ_{j>i} g_j + the die's mark.
 * Range: any resolved bar; a mark below the clamp or off the blank is for `bendLimits` to report.
 */
export function bendPlan(
  bar: ResolvedBar,
  leastBack: Readonly<Record<End, number>>,
  errors?: ReadingErrors,
): BendPlan {
  const { bends, length, lastStraight } = bar.centreline;
  const over = overhang(bar, leastBack);
  const grown = bends.map((b) => growth(bar, b));
  const all = grown.reduce((sum, g) => sum + g, 0);
  const mark = bar.die?.mark ?? 0;
  let before = 0;
  const planned = bends.map((b: Bend, i): PlannedBend => {
    const after = all - before - grown[i]!;
    const set = bar.die && angleToSet(bar.die, b.angle, errors);
    const bend = {
      n: b.n,
      angle: b.angle,
      rotation: b.rotation,
      start: b.start,
      mark: over.A + b.start + before + mark,
      markB: over.B + (length - b.end) + after + mark,
      clr: b.clr,
      straightBefore: b.straightBefore,
      ...(set && set.basis !== "none" && { set }),
    };
    before += grown[i]!;
    return bend;
  });
  const blank = length - leastBack.A - leastBack.B + all;
  return { length, blank, trim: bar.trim, bends: planned, lastStraight };
}

/** Both marks of a bar of two bends, each from its own end of the blank with trim (mm). */
export interface OwnEnds {
  readonly A: number;
  readonly B: number;
}

/**
 * For a bar of two bends: the marks when the tube is turned round between them and each end is fed in its turn.
 * Absent for any other number of bends. Where the first bend must then point: `turnedRound`.
 */
export function fromOwnEnds(plan: BendPlan): OwnEnds | undefined {
  const [first, second] = plan.bends;
  return first && second && plan.bends.length === 2 ? { A: first.mark, B: second.markB } : undefined;
}
