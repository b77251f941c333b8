import type { Sheet } from "../types.ts";

/** One sheet as SVG, in millimetres. Each element has its line kind as class, so that a screen may restyle it. */
export function toSvg(_sheet: Sheet): string {
  throw new Error("being written");
}
