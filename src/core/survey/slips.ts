import { bestFit, type Found } from "./adjust.ts";
import type { Equation, Scene } from "./equation.ts";

/** What a reading must be multiplied by to fit, and the slip that explains it. */
const SLIPS: readonly (readonly [number, string])[] = [
  [10, "typed in cm"],
  [25.4, "typed in inches"],
  [0.1, "in mm, typed as cm"],
  [1 / 25.4, "in mm, typed as inches"],
];

/** A reading meets what the others say within this share where a unit explains it; other slips rarely do. */
const WITHIN = 0.03;

/** A size of 0 where the others say so many sd was never read. */
const FAR_FROM_NOTHING = 20;

/** So few spare readings cannot outvote a slip: each suspicious reading is left out in turn instead. */
const FEW_SPARE = 2;

/** A slip, and what would then have been read. */
export interface Slip {
  readonly says: string;
  readonly meant: number;
}

/** The slip of unit that explains why a length reads as it does, if one does. */
export function slipOf(equation: Equation, found: Found): Slip | undefined {
  const { fit, consensus } = found;
  if (equation.reading === undefined || equation.isAngle) return undefined;
  const { kind } = found.fit.model.readings[equation.reading]!;
  // Level and plumb say that nothing is between two points: that is no size.
  if (kind === "level" || kind === "plumb") return undefined;
  const scene = fit.freedom <= FEW_SPARE ? without(equation, found) : consensus;
  if (!scene) return undefined;
  const { value } = equation.observe(scene);
  if (equation.read === 0)
    return Math.abs(value) > FAR_FROM_NOTHING * equation.sd ? { says: "left at 0", meant: value } : undefined;
  const slip = SLIPS.find(
    ([k]) => Math.abs(value - k * equation.read) < WITHIN * Math.abs(value) + 5 * equation.sd,
  );
  return slip && { says: slip[1], meant: slip[0] * equation.read };
}

function without(equation: Equation, { fit }: Found): Scene | undefined {
  return bestFit(
    fit.model,
    fit.equations.filter((e) => e !== equation),
  ).fit?.scene;
}
