import type { Writer } from "../findings/index.ts";
import type { MadeErrors, Step } from "./errors.ts";

/** The step to check before the next bend: "check turn 1: 1° there is 17.0 mm at the foot". */
export function sayStep(step: Step, freeEnd: string, { length }: Writer): string {
  const at = `is ${length(step.per)} at ${freeEnd}`;
  switch (step.kind) {
    case "turn":
      return `check turn ${step.n} (before bend ${step.n + 1}): 1° there ${at}`;
    case "angle":
      return `check bend ${step.n}: 1° there ${at}`;
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
