import type { Writer } from "../findings/index.ts";
import type { MadeErrors, Step } from "./errors.ts";
import type { WantedErrors } from "./wanted-errors.ts";

/** The step to check before the next bend: "check turn 1: 1° there is 17.0 mm at the foot". */
export function sayStep(step: Step, freeEnd: string, { length }: Writer): string {
  const at = `is ${length(step.per)} at ${freeEnd}`;
  switch (step.kind) {
    case "turn":
      return `check turn ${step.n} (before bend ${step.bend}): 1° there ${at}`;
    case "angle":
      return `check bend ${step.bend}: 1° there ${at}`;
    case "straight":
      return `check straight ${step.n}: ${length(1)} there ${at}`;
    case "radius":
      return `check the die's radius with a test bend: ${length(1)} of it ${at}`;
  }
}

/** How a bar may come out, in one line. */
export const sayScatter = (
  { within }: MadeErrors,
  confidence: number,
  freeEnd: string,
  { length }: Writer,
): string => `${freeEnd} within ${length(within)} in ${Math.round(confidence * 100)} of 100`;

/** The reading that a bar's length hangs on most: "the tape from a to p matters most (62 %): 1 mm there is 0.8 mm of length". */
export function saySource(
  { name, unit, share, per }: NonNullable<WantedErrors["source"]>,
  { length, angle }: Writer,
): string {
  const one = unit === "deg" ? angle(1) : length(1);
  return `${name} matters most (${Math.round(100 * share)} %): ${one} there is ${length(per)} of length`;
}
