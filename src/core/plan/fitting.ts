import { type FitBar, type Fitting, partsOf } from "../fit/index.ts";
import { twinsOf } from "../layout/index.ts";
import { hostsOf, type Plan } from "./plan.ts";

/** A plan as the fit room asks for it: bars with their copes and hosts, pairs, and what stands besides bars. */
export function fittingOf(
  plan: Plan,
): Pick<Fitting, "bars" | "twins" | "parts" | "gates"> & { readonly unusable: readonly string[] } {
  const bars = plan.bars.map((b): FitBar => {
    const needs = plan.job.bars[b.id]?.needs;
    const hosts = { A: hostsOf(b.bar, "A", plan.layout)!, B: hostsOf(b.bar, "B", plan.layout)! };
    return { bar: b.bar, copes: b.copes, hosts, ...(needs ? { needs } : {}) };
  });
  const { parts, gates, body } = partsOf(
    plan.job,
    plan.bars.map((b) => b.bar),
  );
  return { bars, twins: twinsOf(plan.job), parts, gates, unusable: body.unusable };
}
