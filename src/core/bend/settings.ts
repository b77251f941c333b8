import type { Die } from "../job/types.ts";
import { deg, rad } from "../numeric/index.ts";
import type { DieCard } from "./die.ts";
import { angleToSet, type Measured, springsTo } from "./springback.ts";
import type { ReadingErrors } from "./testbend.ts";

/** One line of a die's card. */
export interface DieSetting {
  /** Bend angle wanted (degrees). */
  readonly angle: number;
  /** What to set for it, and ± where it comes from test bends (degrees); absent where nothing is known, or the bender cannot be set to it. */
  readonly set?: number;
  readonly sd?: number;
  /** What to set is known, and the bender cannot be set to it. */
  readonly isBeyond?: true;
  /** From the start of the bend to the corner where the centrelines of both legs would meet (mm). */
  readonly takeUp: number;
  /** Tube used in the bend (mm). */
  readonly used: number;
  /** By how much the way round the bend is shorter than over the corner (mm). */
  readonly gain: number;
}

/** A bender is set up to here (degrees). */
const MOST_SET = 180;

/**
 * What a die makes of common bend angles: what to set, and where tube goes.
 *
 * Units: degrees and mm. Formulas: T = R·tan(θ/2), used a·R·θ, gain 2T − a·R·θ; the angle to set is `angleToSet`'s.
 * R and a are those of the test bends where they give them, else the die's own.
 * Range: angles above 0 and below 180, and up to the largest that the die bends; a setting above 180, or above that
 * largest angle, cannot be set and is absent.
 */
export function dieSettings(
  die: Pick<Die, "od" | "clr" | "arcFactor" | "springback" | "tests" | "maxAngle">,
  card: DieCard,
  errors: ReadingErrors,
  angles: readonly number[],
): readonly DieSetting[] {
  const { clr, arcFactor } = radiusOf(die, card);
  const most = Math.min(MOST_SET, die.maxAngle ?? MOST_SET);
  return angles
    .filter((angle) => angle > 0 && angle < 180 && angle <= most)
    .map((angle) => {
      const theta = rad(angle);
      const { set, sd, basis } = angleToSet(die, theta, errors);
      const degrees = deg(set);
      const takeUp = clr * Math.tan(theta / 2);
      const used = arcFactor * clr * theta;
      return {
        angle,
        ...(basis === "none"
          ? {}
          : degrees > 0 && degrees <= most
            ? { set: degrees, ...(sd === undefined ? {} : { sd: deg(sd) }) }
            : { isBeyond: true as const }),
        takeUp,
        used,
        gain: 2 * takeUp - used,
      };
    });
}

/**
 * Whether the tube that a bend uses up can be true: the line of the tube that keeps its length lies within the tube, and
 * the arc factor within 1 ± (OD/2)/R, R as the die is listed.
 */
export const isBelievable = ({ od, clr }: Pick<Die, "od" | "clr">, { radius }: DieCard): boolean =>
  radius?.arcFactor === undefined || Math.abs(radius.arcFactor.value - 1) <= od / 2 / clr;

/** Radius (mm) and arc factor as far as test bends that can be true give them, else as the die has them. */
export function radiusOf(
  die: Pick<Die, "od" | "clr" | "arcFactor">,
  card: DieCard,
): { readonly clr: number; readonly arcFactor: number } {
  const radius = isBelievable(die, card) ? card.radius : undefined;
  return {
    clr: radius?.clr.value ?? die.clr,
    arcFactor: radius?.arcFactor?.value ?? (radius ? 1 : die.arcFactor),
  };
}

/** The springback line at one setting: what comes out, and ± (degrees); undefined where nothing is known. */
export function springsAt(die: Pick<Die, "springback">, card: DieCard, set: number): Measured | undefined {
  if (die.springback) return { value: die.springback.k * set + die.springback.c, sd: 0 };
  return card.springback && springsTo(card.springback, set);
}
