import { type Bend, type SmallCorner, smallTurn } from "../bar/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { SAME_PLACE } from "../numeric/index.ts";
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

/** A corner that is left out, with what a bend in its place would have; there is none to make. */
export interface SmallBend extends Omit<PlannedBend, "set"> {
  /** How far the bar then runs from the corner's place (mm). */
  readonly off: number;
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
  /** Corners too small to make, from A: no step of the card. */
  readonly small: readonly SmallBend[];
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
 * Range: any resolved bar; a mark below the clamp is for `bendLimits` to report, one off the tube for `impossible`.
 */
export function bendPlan(
  bar: ResolvedBar,
  leastBack: Readonly<Record<End, number>>,
  errors?: ReadingErrors,
): BendPlan {
  const { bends, length, lastStraight } = bar.centreline;
  const over = overhang(bar, leastBack);
  const all = bends.reduce((sum, b) => sum + growth(bar, b), 0);
  const mark = bar.die?.mark ?? 0;
  let before = 0;
  const planned = bends.map((b: Bend): PlannedBend => {
    const own = growth(bar, b);
    const after = all - before - own;
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
    before += own;
    return bend;
  });
  const blank = length - leastBack.A - leastBack.B + all;
  const small = bar.centreline.small.map((corner) => leftOut(bar, corner, over, { mark, all }));
  return { length, blank, trim: bar.trim, bends: planned, small, lastStraight };
}

/** A corner left out, counted like a bend of no length beside its place. */
function leftOut(
  bar: ResolvedBar,
  corner: SmallCorner,
  over: Readonly<Record<End, number>>,
  { mark, all }: { readonly mark: number; readonly all: number },
): SmallBend {
  const { bends, length } = bar.centreline;
  const { n, angle, off, along: start } = corner;
  const before = bends.filter((b) => b.n < n);
  const grown = before.reduce((sum, b) => sum + growth(bar, b), 0);
  return {
    n,
    angle,
    rotation: smallTurn(bar.centreline, corner),
    start,
    mark: over.A + start + grown + mark,
    markB: over.B + (length - start) + (all - grown) + mark,
    clr: bar.die?.clr ?? 0,
    straightBefore: Math.max(0, start - (before.at(-1)?.end ?? 0)),
    off,
  };
}

/** What the stick is sawn to (mm). */
export const sawn = ({ blank, trim }: Pick<BendPlan, "blank" | "trim">): number => blank + trim.A + trim.B;

/** A mark as it falls on the sawn tube; undefined for one off the tube, which nobody can make (mm). */
export const onTube = (plan: Pick<BendPlan, "blank" | "trim">, mark: number): number | undefined =>
  mark >= -SAME_PLACE && mark <= sawn(plan) + SAME_PLACE
    ? Math.min(Math.max(mark, 0), sawn(plan))
    : undefined;

/** Both marks of a bar of two bends, each from its own end of the blank with trim (mm). */
export interface OwnEnds {
  readonly A: number;
  readonly B: number;
}

/**
 * For a bar of two bends: the marks when the tube is turned round between them and each end is fed in its turn.
 * Absent for any other number of bends, and where one of the marks falls off the tube. Where the first bend must then
 * point: `turnedRound`.
 */
export function fromOwnEnds(plan: BendPlan): OwnEnds | undefined {
  const [first, second] = plan.bends;
  if (!first || !second || plan.bends.length > 2) return undefined;
  const [A, B] = [onTube(plan, first.mark), onTube(plan, second.markB)];
  return A === undefined || B === undefined ? undefined : { A, B };
}
