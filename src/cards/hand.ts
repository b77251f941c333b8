import { twinsOf } from "../core/layout/index.ts";
import type { Plan } from "../core/plan/index.ts";

export type Hand = "left" | "right" | "centre";

/** Nearer to the centre plane than this, on the whole, a bar has no side (mm). */
const CENTRE = 1;

/**
 * Which side of the car a bar is for, the driver's left or right. What its label says goes first ("Sill bar, left");
 * then the side on which its middle lies; a bar across the centre plane is "centre".
 */
export function handOf(plan: Plan, id: string): Hand {
  const bar = plan.byId.get(id);
  if (!bar) return "centre";
  const said = bar.bar.label.match(/\b(left|right)\b/gi) ?? [];
  if (said.length === 1) return said[0]!.toLowerCase() as Hand;
  const { start, finish } = bar.bar.centreline;
  const y = (start[1] + finish[1]) / 2;
  const across = start[1] * finish[1] < 0 && twinOf(plan, id) === undefined;
  if (across || Math.abs(y) < CENTRE) return "centre";
  return y > 0 ? "left" : "right";
}

/** The bar's mirror image in the job, if it has one. */
export const twinOf = (plan: Plan, id: string): string | undefined => twinsOf(plan.job).get(id);
