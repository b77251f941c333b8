import { FEATHER, type SawCut, sawBack } from "../cope/index.ts";
import { axesOf } from "../estimate/index.ts";
import { deg } from "../numeric/index.ts";
import type { Vec } from "../space/index.ts";
import type { GapsRead } from "./gaps.ts";
import { type FiguredJoint, RIM, type TrueJoint, trueClearance } from "./joint.ts";

/** Where one cut has taken what another wants left. Lengths mm. */
export interface Missing {
  /** How much the bar must move outward past its place for the second cut to clean up the first, feathers aside. */
  readonly along: number;
  /** Widest gap that stays while it does not, square to the host at the outside, and the φ of it (degrees). */
  readonly gap: number;
  readonly phi: number;
}

/** What stays open of a joint, and on which side of it, seen from the heel. */
export interface StaysOpen extends Missing {
  readonly side: "heel" | "toe" | "side";
}

/** The next cut at the notcher. Angles radians, lengths mm; conventions as in SawCut. */
export interface NextCut {
  /** Its centre counts from the landing, as that of the cut made. */
  readonly cut: SawCut;
  /** How much steeper than the cut made (negative: shallower). */
  readonly steeper: number;
  /** How far the notch is rolled, right-handed about the outward direction, and as a length round the outside. */
  readonly roll: number;
  readonly rollRound: number;
  /** How far the saw is shifted to the side, toward 90° past the heel. */
  readonly aside: number;
  /** How far the hole's centre goes inboard from the last one; negative: outboard. */
  readonly inboard: number;
  /** Depth of the thickest that it takes off, along the bar. */
  readonly takes: number;
  /**
   * What stays open if the bar ends up in its place: the first cut has been there already. All 0 where the cut
   * cleans up everything.
   */
  readonly short: StaysOpen;
  /** Kept back, because the angle is not known well enough: the hole stands this far outboard of the final one. */
  readonly heldBack: number;
  /** Whether this is the last cut: nothing held back. */
  readonly final: boolean;
}

/**
 * The cut to make next, never past the final shape: the true angle, roll and side shift found, its hole centre on the
 * final one (`outboard` inboard of the cut made) — or, where two standard deviations of what was found could take
 * more than `gap` from the final shape, outboard of it by as much as that.
 *
 * Convention: `outboard` is how far the hole of the cut made stood outboard of the final one (0 where it was cut on
 * size). Units: mm, radians.
 */
export function nextCut(
  joint: FiguredJoint,
  made: SawCut,
  read: GapsRead,
  { outboard, gap }: { readonly outboard: number; readonly gap: number },
): NextCut {
  const real = read.joint;
  const final: SawCut = {
    radius: joint.cut.radius,
    notch: real.notch,
    clock: real.clock,
    offset: real.offset,
    centre: made.centre + outboard,
  };
  const risk = atRisk(joint, final, read);
  const heldBack = risk > gap ? risk : 0;
  const cut = { ...final, centre: final.centre - heldBack };
  const roll = cut.clock - made.clock;
  const short = missing(joint, made, final, real);
  return {
    cut,
    steeper: cut.notch - made.notch,
    roll,
    rollRound: roll * joint.radii[0],
    aside: cut.offset - made.offset,
    inboard: cut.centre - made.centre,
    takes: deepest(cut, made, joint.radii),
    short: { ...short, side: sideOf(short.phi, real.clock) },
    heldBack,
    final: heldBack === 0,
  };
}

/** What `first` has taken that `second` would leave, both with their own hole centres, in the joint `real`. */
export function missing(joint: FiguredJoint, first: SawCut, second: SawCut, real: TrueJoint): Missing {
  const clear = trueClearance(joint, { ...real, standsOff: 0 });
  let along = 0;
  let gap = 0;
  let phi = 0;
  joint.radii.forEach((rho, wall) => {
    RIM.forEach(([cos, sin], i) => {
      const back = sawBack(second, rho, cos, sin);
      const over = sawBack(first, rho, cos, sin) - back;
      if (!(over > 0)) return;
      const sine = meets(clear, [rho * cos, rho * sin, -back]);
      along = Math.max(along, over - FEATHER / sine);
      if (wall === 0 && over * sine > gap) {
        gap = over * sine;
        phi = i;
      }
    });
  });
  return { along, gap, phi };
}

/** Sine of the angle at which a wall line meets the host at a place (1e-9 at the least). */
function meets(clear: (p: Vec) => number, [x, y, z]: Vec): number {
  const h = 1e-3;
  return Math.min(1, Math.max(1e-9, Math.abs(clear([x, y, z + h]) - clear([x, y, z - h])) / (2 * h)));
}

const deepest = (cut: SawCut, made: SawCut, radii: readonly number[]): number =>
  Math.max(
    0,
    ...radii.flatMap((rho) =>
      RIM.map(([c, s]) => sawBack(cut, rho, c, s) - sawBack(made, rho, c, s)).filter((d) => !Number.isNaN(d)),
    ),
  );

/**
 * The most that `cut` could take from the final shape (mm along the bar, feathers aside), if angle, roll and side
 * shift are really two standard deviations from where they were found, along any of the three axes of their error.
 */
function atRisk(joint: FiguredJoint, cut: SawCut, read: GapsRead): number {
  const steps = axesOf(read.covariance, 3).map((axis) => axis.map((v) => 2 * v));
  let most = 0;
  for (const [notch = 0, clock = 0, offset = 0] of steps) {
    for (const sign of [1, -1]) {
      const real: TrueJoint = {
        ...read.joint,
        notch: read.joint.notch + sign * notch,
        clock: read.joint.clock + sign * clock,
        offset: read.joint.offset + sign * offset,
      };
      const wanted: SawCut = { ...cut, notch: real.notch, clock: real.clock, offset: real.offset };
      most = Math.max(most, missing(joint, cut, wanted, real).along);
    }
  }
  return most;
}

/** Which side of the joint a place round the tube is on, seen from the heel. */
const sideOf = (phi: number, clock: number): "heel" | "toe" | "side" => {
  const from = Math.abs(((phi - deg(clock) + 540 + 360) % 360) - 180);
  return from < 60 ? "heel" : from > 120 ? "toe" : "side";
};
