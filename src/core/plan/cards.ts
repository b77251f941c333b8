import type { End, IssuedCard, Job } from "../job/index.ts";
import { hostsOf } from "./hosts.ts";
import type { BarPlan, Plan } from "./plan.ts";

/** FNV-1a, 32 bits (Fowler, Noll, Vo; offset basis and prime from memory), over UTF-16 code units. */
export function fnv1a(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}

/**
 * Four hexadecimal figures that change when anything changes that the bar's cards were figured from: the bar as laid
 * out, its tube and die, the bars that it lands on, bender, notcher and shop. Units of display do not count. Two
 * different states share a code by accident once in 65,536 times.
 */
export function codeOf(plan: Plan, bar: BarPlan): string {
  const { job } = plan;
  const hosts = (end: End) =>
    (hostsOf(bar.bar, end, plan.layout) ?? []).map((host) => [host.tube, host.centreline.pieces]);
  const { dependsOn: _, ...own } = bar.bar;
  const believed = job.bars[bar.id]?.believed;
  const inputs = [own, hosts("A"), hosts("B"), job.bender, job.notcher, job.shop, believed ?? null];
  const hash = fnv1a(JSON.stringify(inputs, rounded));
  return (((hash >>> 16) ^ hash) & 0xffff).toString(16).padStart(4, "0");
}

/** To a millionth, so that the last bit of a sine, which machines round differently, makes no new code. */
const rounded = (_: string, value: unknown): unknown =>
  typeof value === "number" ? Math.round(value * 1e6) / 1e6 + 0 : value;

/** The card of a bar as it would be printed now. */
export interface CardNow {
  /** Counts from 1. Of a card that was not issued: the number that it will have. */
  readonly n: number;
  readonly code: string;
  /** The day of issue, as YYYY-MM-DD; absent: its figures were never issued. */
  readonly on?: string;
}

/** The number of a bar's card: that of the one issued last where its figures are the same, else the next. */
export function cardOf(plan: Plan, bar: BarPlan): CardNow {
  const code = codeOf(plan, bar);
  const last = plan.job.cards?.[bar.id];
  return last?.code === code ? last : { n: (last?.n ?? 0) + 1, code };
}

/**
 * The job's `cards` once a card of `code` is issued for a bar on a day (YYYY-MM-DD): printed, or its first step
 * started. With figures that were issued already nothing changes, day and all; with others the count goes up by one.
 */
export function issued(
  { cards = {} }: Pick<Job, "cards">,
  bar: string,
  code: string,
  on: string,
): Readonly<Record<string, IssuedCard>> {
  const last = Object.hasOwn(cards, bar) ? cards[bar] : undefined;
  return last?.code === code ? cards : { ...cards, [bar]: { n: (last?.n ?? 0) + 1, code, on } };
}
