import { sinCosDeg } from "../numeric/index.ts";
import type { CopeResult } from "./curve.ts";

/**
 * Which cut a wrap is for. outside: the tool runs through both walls in the direction of the host (saw, mill, or a
 * torch held that way) and follows the outside of the tube. square: the tool is held square to the wall (saw blade,
 * grinder, torch, snips), so it must clear whichever of outside and bore is deeper.
 */
export type CutKind = "outside" | "square";

/** Lines round a wrap: every half degree. */
export const WRAP_LINES = 720;

/** Radii through the wall at which a cut made square to it is sampled. */
const THROUGH = 9;

/**
 * The curve of an end to cut to: back at φ = 0°, ½°, … 359½° (mm), NaN where the line misses every host; undefined for
 * a square end. For a square cut the greatest back through the wall, outside to bore, at 9 radii; a radius that misses
 * asks for nothing there.
 */
export function wrapCurve({ cope, joint }: CopeResult, kind: CutKind): Float64Array | undefined {
  if (!joint) return undefined;
  const { outerRadius: outer, boreRadius: bore } = cope;
  const back = new Float64Array(WRAP_LINES);
  for (let i = 0; i < WRAP_LINES; i++) {
    const [sin, cos] = sinCosDeg(i / 2);
    let most = joint.back(outer, cos, sin);
    if (kind === "square")
      for (let k = 1; k < THROUGH; k++) {
        const b = joint.back(outer + ((bore - outer) * k) / (THROUGH - 1), cos, sin);
        if (!(b <= most) && !Number.isNaN(b)) most = b;
      }
    back[i] = most;
  }
  return back;
}
