import { type UnitSlip, unitSlip } from "../units/index.ts";
import { bestFit, type Found } from "./adjust.ts";
import type { Equation, Network } from "./equation.ts";

/** So few spare readings cannot outvote a slip: each suspicious reading is left out in turn instead. */
const FEW_SPARE = 2;

/** The slip of unit that explains why a length reads as it does, if one does. */
export function slipOf(equation: Equation, found: Found): UnitSlip | undefined {
  const { fit, consensus } = found;
  if (equation.reading === undefined || equation.isAngle) return undefined;
  const reading = found.fit.model.readings[equation.reading];
  // Level and plumb say that nothing is between two points: that is no size.
  if (!reading || reading.kind === "level" || reading.kind === "plumb") return undefined;
  const network = fit.freedom <= FEW_SPARE ? without(equation, found) : consensus;
  if (!network) return undefined;
  const { value } = equation.observe(network);
  return unitSlip(equation.read, value, equation.sd);
}

function without(equation: Equation, { fit }: Found): Network | undefined {
  return bestFit(
    fit.model,
    fit.equations.filter((e) => e !== equation),
  ).fit?.network;
}
