import { reversed as reversedLine } from "../bar/index.ts";
import { reversedShape } from "../trestles/index.ts";
import type { MadeBar } from "./types.ts";

/** The same made bar with its ends called by each other's names. */
export function turnedRound(made: MadeBar): MadeBar {
  const { over, frames, rims } = made;
  return {
    ...made,
    shape: reversedShape(made.shape),
    over: { A: over.B, B: over.A },
    line: reversedLine(made.line),
    frames: { A: frames.B, B: frames.A },
    rims: { ...(rims.B ? { A: rims.B } : {}), ...(rims.A ? { B: rims.A } : {}) },
  };
}

/** What is left of a made bar, from its longest point to its longest point, along its centreline (mm). */
export function lengthLeft({ line, rims, over }: MadeBar): number {
  const tip = (end: "A" | "B"): number => {
    const rim = rims[end];
    if (!rim) return over[end];
    return Math.max(...[...rim.outer, ...rim.bore].flatMap((p) => (p ? [p[2]] : [])));
  };
  return line.length + tip("A") + tip("B");
}
