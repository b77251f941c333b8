import { deg, rad } from "../numeric/index.ts";
import { cutLines, type SawCut, type SawFit } from "./saw.ts";
import {
  FROM_HEEL,
  greatestRound,
  type Misfit,
  type Radii,
  setUpIn,
  showsOf,
  type TrueSeat,
} from "./set-up.ts";

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
  const firstAt = cutLines({ ...saw, notch: first, clock: 0, centre: 0 });
  const secondAt = cutLines({ ...saw, notch: second, clock: 0, centre: 0 });
  const over = (rho: number, cos: number, sin: number): number =>
    firstAt(rho, cos, sin) - secondAt(rho, cos, sin);
  const most = radii.map((rho) => {
    const lines = FROM_HEEL.map(([sin, cos]) => over(rho, cos, sin));
    return greatestRound(lines, (phi) => over(rho, Math.cos(phi), Math.sin(phi)));
  });
  return Math.max(0, ...most);
}

/** One cut of a plan toward the final angle. */
export interface Step {
  /** Off square (radians). */
  readonly notch: number;
  /** How far outboard of the final hole centre this hole's centre stands (mm), so that it stays inside the final cut. */
  readonly outboard: number;
  /** Back of this hole's centre (mm). */
  readonly centre: number;
  /**
   * What the joint shows when the bar is set up after this cut, if the final angle is the true one; the hole that
   * stands outboard is part of it. Of the final cut: what it leaves for good.
   */
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

/** Angles nearer to each other than the shop can set are one cut (radians; common practice, no source: half a degree). */
const SETTABLE = rad(0.5) - 1e-9;

/**
 * A plan of cuts toward the final notch angle: a first one, one half way where they are more than 6° apart, the final.
 * Each one's hole centre is moved outboard by its over-cut, so that no cut goes outside the final shape. A first angle
 * nearer to the final one than the shop can set is no step: the final cut is then the only one.
 *
 * The first angle is the one believed; of a range its shallow end where deepening is cheap, else the one of least
 * regret (whose greatest over-cut over all true angles of the range is least; brute force, a quarter degree); without
 * either, 5° shallower than the final. Radians and mm. Common practice (no source): expect an angle, start a few
 * degrees shallower, deepen; near square it saves nothing, and `ruleHolds` says so. `seat` is the joint that the cuts
 * are set up in.
 */
export function stepsToward(fit: SawFit, seat: TrueSeat, believed?: Believed): StepPlan {
  const final = fit.cut;
  const cost: Cost = (a, b) => overCut(a, Math.min(b, STEEPEST), final, seat.radii);
  const five = rad(5);
  const fromShallower = cost(final.notch - five, final.notch);
  const fromSteeper = cost(Math.min(final.notch + five, STEEPEST), final.notch);
  const ruleHolds = fromSteeper >= RULE_HOLDS * fromShallower;
  const { first, low, high } = firstAngle(final.notch, cost, ruleHolds, believed);
  const before = [first];
  if (Math.abs(final.notch - first) > rad(6)) before.push((first + final.notch) / 2);
  const setUp = setUpIn(seat, final.clock);
  const steps = before.map((notch): Step => {
    const outboard = cost(notch, final.notch);
    const centre = final.centre - outboard;
    return { notch, outboard, centre, shows: setUp({ ...final, notch, centre }) };
  });
  const last: Step = { notch: final.notch, outboard: 0, centre: final.centre, shows: showsOf(fit) };
  const isOne = Math.abs(final.notch - first) < SETTABLE;
  return {
    steps: isOne ? [last] : [...steps, last],
    leave: worstCost(isOne ? final.notch : first, low, high, cost),
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
    const said = believed ? believed.first : Math.max(0, final - rad(5));
    const first = Math.abs(said - final) < SETTABLE ? final : said;
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
