import { concerns, type Finding, isDanger } from "../findings/index.ts";
import { nearlyInLine } from "../layout/index.ts";
import { clashFindings } from "./clashes.ts";
import { notchAt, type Plan, type Told } from "./plan.ts";

/** Every finding of a plan, with those of the clashes and the notches, which are worked out for it; a notch is no danger. */
export function allFindings(
  plan: Plan,
  notches: "with notches" | "without" = "with notches",
  told?: Told,
): readonly Finding[] {
  const shaped = notches === "without" ? [] : plan.bars;
  const ofNotches = shaped.flatMap((b, i) => {
    told?.(i, shaped.length);
    return (["A", "B"] as const).flatMap((end) => notchAt(plan, b.id, end)?.findings ?? []);
  });
  const ofDies = [...plan.dies.values()].flatMap((d) => d.findings);
  return [
    ...plan.mutual,
    ...clashFindings(plan),
    ...plan.findings,
    ...nearlyInLine(plan.layout.byId.values()),
    ...ofNotches,
    ...ofDies,
  ];
}

const dangers = new WeakMap<Plan, readonly Finding[]>();

/**
 * What can hurt a person, of one bar (what names it among its values concerns it too) or of the whole job: printed on
 * every card and shown on every page, whatever else is asked for.
 */
export function dangersOf(plan: Plan, bar?: string): readonly Finding[] {
  const all = dangers.get(plan) ?? allFindings(plan, "without").filter(isDanger);
  dangers.set(plan, all);
  return bar === undefined ? all : all.filter((f) => concerns(f, bar));
}
