import type { Writer } from "../../core/findings/index.ts";
import type { MadeErrors, MadeStep, WantedErrors } from "../../core/trestles/index.ts";
import type { Names } from "../names.ts";
import { sayPercent } from "../text.ts";
import { written } from "../write.ts";

/** The step to check before the next bend: "check the turn before bend 2: 1° there is 17.0 mm at the foot". */
export function sayStep(step: MadeStep, freeEnd: string, { length }: Writer): string {
  const at = `is ${length(step.per)} at ${freeEnd}`;
  switch (step.kind) {
    case "turn":
      return `check the turn before bend ${step.bend}: 1° there ${at}`;
    case "angle":
      return `check bend ${step.bend}: 1° there ${at}`;
    case "straight":
      return `check straight ${step.n}: ${length(1)} there ${at}`;
    case "radius":
      return `check the die's radius with a test bend: ${length(1)} of it ${at}`;
  }
}

/** How a bar may come out, in one line: "the foot: 95 % within 2.0 mm". */
export const sayScatter = (
  { within }: MadeErrors,
  confidence: number,
  freeEnd: string,
  { length }: Writer,
): string => `${freeEnd}: ${sayPercent(confidence)} within ${length(within)} of its place`;

/** The reading that a bar's length hangs on most: "the tape from a to p matters most (62 %): 1 mm there is 0.8 mm of length". */
export function saySource(
  { name, unit, share, per }: NonNullable<WantedErrors["source"]>,
  writer: Writer,
  names: Names,
): string {
  const one = unit === "deg" ? writer.angle(1) : writer.length(1);
  return `${written(name, writer, names)} matters most (${sayPercent(share)}): ${one} there is ${writer.length(per)} of length`;
}
