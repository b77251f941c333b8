import type { Writer } from "../core/findings/index.ts";
import { inLine } from "./text.ts";

/** Arcs round an end, degrees from the zero line: "12.0° to 20.5° and 310.0° to 4.0°". */
export const sayArcs = (
  arcs: readonly (readonly [number, number])[],
  { angle }: Pick<Writer, "angle">,
): string => inLine(arcs.map(([from, to]) => `${angle(from)} to ${angle(to)}`));
