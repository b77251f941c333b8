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

/** So few spare readings cannot outvote a slip: each suspicious reading is left out in turn instead. */
const FEW_SPARE = 2;

/** The slip of unit that explains why a length reads as it does, if one does. */
export function slipOf(equation: Equation, found: Found): string | undefined {
  const { fit, consensus } = found;
  if (equation.reading === undefined || equation.isAngle || equation.read === 0) return undefined;
  const scene = fit.freedom <= FEW_SPARE ? without(equation, found) : consensus;
  if (!scene) return undefined;
  const { value } = equation.observe(scene);
  return SLIPS.find(
    ([k]) => Math.abs(value - k * equation.read) < WITHIN * Math.abs(value) + 5 * equation.sd,
  )?.[1];
}

function without(equation: Equation, { fit }: Found): Scene | undefined {
  return bestFit(
    fit.model,
    fit.equations.filter((e) => e !== equation),
  ).fit?.scene;
}
