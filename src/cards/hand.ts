import { twinsOf } from "../core/layout/index.ts";
import type { Plan } from "../core/plan/index.ts";
import type { Hand } from "../words/index.ts";

/** Nearer to the centre plane than this, on the whole, a bar has no side (mm). */
const CENTRE = 1;

/**
 * Which side of the car a bar is for, the driver's left or right; undefined for one that has no twin to be taken for.
 * What its label says goes first ("Sill bar, left"); then the side on which its middle lies.
 */
export function handOf(plan: Plan, id: string): Hand | undefined {
  const bar = plan.byId.get(id);
  if (!bar || !twinsOf(plan.job).has(id)) return undefined;
  const [named, more] = bar.bar.label.match(/\b(left|right)\b/gi) ?? [];
  if (named && !more) return named.toLowerCase() === "left" ? "left" : "right";
  const { start, finish } = bar.bar.centreline;
  const y = (start[1] + finish[1]) / 2;
  if (Math.abs(y) < CENTRE) return undefined;
  return y > 0 ? "left" : "right";
}
