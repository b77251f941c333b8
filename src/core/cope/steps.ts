import { deg, rad, sinCosDeg } from "../numeric/index.ts";
import { LINES } from "./curve.ts";
import { cutLines, type SawCut } from "./saw.ts";

/** The radii of a tube's two walls (mm): outside, bore. */
export type Radii = readonly [number, number];

/** Lines reckoned from the heel, so that heel and toe are among them. */
const FROM_HEEL = Array.from({ length: LINES }, (_, i) => sinCosDeg(i));

/**
 * Greatest over φ and both walls of b(first) − b(second), with the same saw, clock, offset and hole centre (mm): how
 * much the bar must shorten for the second cut to clean up the first. Never negative. geometry.md, "Notching toward
 * the final angle"; angles in radians off square.
 */
export function overCut(
  first: number,
  second: number,
  saw: Pick<SawCut, "radius" | "offset">,
  radii: Radii,
): number {
  const before: SawCut = { ...saw, notch: first, clock: 0, centre: 0 };
  const after: SawCut = { ...saw, notch: second, clock: 0, centre: 0 };
  const firstAt = cutLines(before);
  const secondAt = cutLines(after);
  let most = 0;
  for (const rho of radii) {
    for (const [sin, cos] of FROM_HEEL) {
      const over = firstAt(rho, cos, sin) - secondAt(rho, cos, sin);
      if (over > most) most = over;
    }
  }
  return most;
}

/** How a cut sits when the joint wants another angle (mm, φ in degrees from the heel). */
export interface Misfit {
  /** How far the bar stands off its place. */
  readonly standsOff: number;
  /** Greatest gap at the outside, and where. */
  readonly gap: number;
  readonly gapAt: number;
}

/** A cut at `made` set up where the joint wants `wanted`: it touches where it left most standing, and gaps elsewhere. */
export function misfit(
  made: number,
  wanted: number,
  saw: Pick<SawCut, "radius" | "offset">,
  radii: Radii,
): Misfit {
  const cut: SawCut = { ...saw, notch: made, clock: 0, centre: 0 };
  const joint: SawCut = { ...saw, notch: wanted, clock: 0, centre: 0 };
  const wantedAt = cutLines(joint);
  const madeAt = cutLines(cut);
  const standing = (rho: number): number[] =>
    FROM_HEEL.map(([sin, cos]) => wantedAt(rho, cos, sin) - madeAt(rho, cos, sin));
  const known = (list: number[]): number[] => list.filter((x) => !Number.isNaN(x));
  const outer = standing(radii[0]);
  const standsOff = Math.max(...known(outer), ...known(standing(radii[1])));
  let gap = 0;
  let gapAt = 0;
  outer.forEach((s, i) => {
    if (standsOff - s > gap) {
      gap = standsOff - s;
      gapAt = i;
    }
  });
  return { standsOff, gap, gapAt };
}

/** One cut of a plan toward the final angle. */
export interface Step {
  /** Off square (radians). */
  readonly notch: number;
  /** How far outboard of the final hole centre this hole's centre stands (mm), so that it stays inside the final cut. */
  readonly outboard: number;
  /** Back of this hole's centre (mm). */
  readonly centre: number;
  /** What the joint shows after this cut, if the final angle is the true one: how far it stands off, the gap, where. */
  readonly shows: Misfit;
}

export interface StepPlan {
  readonly steps: readonly Step[];
  /** Extra length to leave so that the final cut cleans up the first whatever the true angle of the range (mm). */
  readonly leave: number;
  /** The angles that the truth was taken to lie between (radians). */
  readonly range: readonly [number, number];
  /** Cost in length of coming to the final angle from 5° shallower and from 5° steeper (mm). */
  readonly fromShallower: number;
  readonly fromSteeper: number;
  /** Whether "start shallow, then deepen" saves anything here. */
  readonly ruleHolds: boolean;
}

/** Coming back from too steep must cost this many times what deepening costs for the rule of thumb to be worth it. */
export const RULE_HOLDS = 3;

/** A first angle believed (radians off square), or the range that the true one is believed to lie in. */
export type Believed = { readonly first: number } | { readonly range: readonly [number, number] };

/**
 * A plan of cuts toward the final notch angle: a first one, one half way where they are more than 6° apart, the final.
 * Each one's hole centre is moved outboard by its over-cut, so that no cut goes outside the final shape.
 *
 * The first angle is the one believed; of a range its shallow end where deepening is cheap, else the one of least
 * regret (whose greatest over-cut over all true angles of the range is least; brute force, a quarter degree); without
 * either, 5° shallower than the final. Radians and mm. Common practice (no source): expect an angle, start a few
 * degrees shallower, deepen; near square it saves nothing, and `ruleHolds` says so.
 */
export function stepsToward(final: SawCut, radii: Radii, believed?: Believed): StepPlan {
  const cost = (a: number, b: number): number => overCut(a, Math.min(b, STEEPEST), final, radii);
  const five = rad(5);
  const fromShallower = cost(final.notch - five, final.notch);
  const fromSteeper = cost(Math.min(final.notch + five, STEEPEST), final.notch);
  const ruleHolds = fromSteeper >= RULE_HOLDS * fromShallower;
  const { first, low, high } = firstAngle(final.notch, cost, ruleHolds, believed);
  const angles = [first];
  if (Math.abs(final.notch - first) > rad(6)) angles.push((first + final.notch) / 2);
  if (Math.abs(final.notch - first) > rad(0.05)) angles.push(final.notch);
  else angles[0] = final.notch;
  const steps = angles.map((notch): Step => {
    const outboard = notch === final.notch ? 0 : cost(notch, final.notch);
    return {
      notch,
      outboard,
      centre: final.centre - outboard,
      shows: misfit(notch, final.notch, final, radii),
    };
  });
  return {
    steps,
    leave: worstCost(first, low, high, cost),
    range: [low, high],
    fromShallower,
    fromSteeper,
    ruleHolds,
  };
}

/** Past this the formulas' 1/cos ν runs away and no notcher goes there (radians). */
const STEEPEST = rad(88);

type Cost = (first: number, second: number) => number;

function firstAngle(
  final: number,
  cost: Cost,
  ruleHolds: boolean,
  believed?: Believed,
): { readonly first: number; readonly low: number; readonly high: number } {
  if (!believed || "first" in believed) {
    const first = believed ? believed.first : Math.max(0, final - rad(5));
    return { first, low: Math.min(first, final), high: Math.max(first, final) };
  }
  const low = Math.min(...believed.range);
  const high = Math.max(...believed.range);
  return { first: ruleHolds ? low : leastRegret(low, high, cost), low, high };
}

/** Over-cut grows with the distance of the angles on either side, so the ends of the range decide. */
const worstCost = (first: number, low: number, high: number, cost: Cost): number =>
  Math.max(cost(first, low), cost(first, high));

function leastRegret(low: number, high: number, cost: Cost): number {
  const count = Math.max(1, Math.round(deg(high - low) * 4));
  let best = { at: low, worst: Infinity };
  for (let i = 0; i <= count; i++) {
    const at = low + ((high - low) * i) / count;
    const worst = worstCost(at, low, high, cost);
    if (worst < best.worst - 1e-9) best = { at, worst };
  }
  return best.at;
}
