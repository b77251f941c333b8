import type { End } from "../core/job/index.ts";
import { type BarPlan, hostsOf, type Plan } from "../core/plan/index.ts";

/** FNV-1a, 32 bits (Fowler, Noll, Vo; offset basis and prime from memory), over UTF-16 code units. */
export function fnv1a(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}

/**
 * Four hexadecimal figures that change when anything changes that the bar's cards were figured from: the bar as laid
 * out, its tube and die, the bars that it lands on, bender, notcher and shop. Units of display do not count. Two
 * different states share a revision by accident once in 65,536 times.
 */
export function revisionOf(plan: Plan, bar: BarPlan): string {
  const { job } = plan;
  const hosts = (end: End) =>
    (hostsOf(bar.bar, end, plan.layout) ?? []).map((host) => [host.tube, host.centreline.pieces]);
  const { dependsOn: _, ...own } = bar.bar;
  const said = job.bars[bar.id]?.believed;
  const inputs = [own, hosts("A"), hosts("B"), job.bender, job.notcher, job.shop, said ?? null];
  const hash = fnv1a(JSON.stringify(inputs, rounded));
  return (((hash >>> 16) ^ hash) & 0xffff).toString(16).padStart(4, "0");
}

/** To a millionth, so that the last bit of a sine, which machines round differently, makes no new revision. */
const rounded = (_: string, value: unknown): unknown =>
  typeof value === "number" ? Math.round(value * 1e6) / 1e6 + 0 : value;
