import { nearest } from "../cope/index.ts";
import type { End } from "../job/types.ts";
import type { FiguredJoint } from "../trestles/index.ts";
import { notchAt, type Plan } from "./plan.ts";

/** The joint of one end as the plan has it, or why there is none to feel gaps at. */
export type Felt =
  | { readonly ok: true; readonly joint: FiguredJoint }
  | { readonly ok: false; readonly why: "no bar" | "flat" | "no saw" };

/** The joint at which gaps are felt: the saw cut that one end asks for, and how near a place is to what it lands on. */
export function figuredJoint(plan: Plan, bar: string, end: End): Felt {
  const planned = plan.byId.get(bar);
  if (!planned) return { ok: false, why: "no bar" };
  const { cope, joint } = planned.copes[end];
  if (!joint || cope.kind !== "on") return { ok: false, why: "flat" };
  const saw = notchAt(plan, bar, end)?.saw;
  if (!saw) return { ok: false, why: "no saw" };
  const { solids } = joint;
  return {
    ok: true,
    joint: {
      cut: saw.cut,
      clear: (p) => nearest(solids, p[0], p[1], p[2]),
      radii: [cope.outerRadius, cope.boreRadius],
    },
  };
}
