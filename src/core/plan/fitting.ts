// biome-ignore-all lint/style/noNonNullAssertion: the hosts of a planned bar are planned.
import { type FitBar, type Fitting, partsOf } from "../fit/index.ts";
import { forceAside } from "../frame/index.ts";
import { platesUnder, twinsOf } from "../layout/index.ts";
import { hostsOf } from "./hosts.ts";
import type { BarPlan, Plan } from "./plan.ts";

/** Where a shop has not said: nozzle and neck of a common torch (common practice, no source). */
const TORCH = { od: 22, length: 120 };

/** One bar as the fit room asks for it. */
export function fitBarOf(b: BarPlan, plan: Plan): FitBar {
  const needs = plan.job.bars[b.id]?.needs;
  const hosts = { A: hostsOf(b.bar, "A", plan.layout)!, B: hostsOf(b.bar, "B", plan.layout)! };
  return { bar: b.bar, copes: b.copes, hosts, ...(needs ? { needs } : {}) };
}

/**
 * A plan as the fit room asks for it: bars with their copes and hosts, pairs, what stands besides bars, the shop's torch,
 * and what force pushes the frame so far aside.
 */
export function fittingOf(plan: Plan): Pick<
  Fitting,
  "bars" | "twins" | "parts" | "gates" | "torch" | "force"
> & {
  readonly unusable: readonly string[];
} {
  const bars = plan.bars.map((b) => fitBarOf(b, plan));
  const resolved = plan.bars.map((b) => b.bar);
  const { parts, gates, body } = partsOf(plan.job, resolved, platesUnder(plan.job.plates, resolved));
  const force: Fitting["force"] = (pushes, tacked) =>
    forceAside(
      tacked.flatMap((id) => plan.byId.get(id)?.bar ?? []),
      pushes,
    );
  const torch = plan.job.shop.torch ?? TORCH;
  return { bars, twins: twinsOf(plan.job), parts, gates, torch, force, unusable: body.unusable };
}

/** An order with the bars that it leaves out behind, hosts first; bars without a geometry are no part of it. */
export const wholeOrder = ({ byId, layout }: Plan, order: readonly string[]): readonly string[] => [
  ...order.filter((id) => byId.has(id)),
  ...layout.order.filter((id) => byId.has(id) && !order.includes(id)),
];
