import type { Judged, Reach } from "../../core/fit/index.ts";
import type { Job, Needs } from "../../core/job/index.ts";
import { type BarResult, type FoundCure, hostsOf, type Results } from "../model/compute/index.ts";
import { at, calledOf, type JobDocument, thingsOf } from "../model/document/index.ts";
import type { Keys } from "./keys.ts";

/** Where to move a tag so that its bar goes in: before another one; null: last. */
export interface Cure {
  readonly before: string | null;
}

/** One bar of the order, as its tag shows it. */
export interface Tag {
  readonly id: string;
  /** Its place in the order, from 1. */
  readonly n: number;
  readonly label: string;
  /** "unseen": not looked at in this order; "placeless": it has no geometry yet. */
  readonly state: "unseen" | "free" | "touches" | "spring" | "no" | "placeless";
  /** The answer; where the state is "unseen", what it was before the last change, no longer counted. */
  readonly judged?: Judged;
  /** Bars that it lands on and that are not in by then. */
  readonly missing: readonly string[];
  /** Undefined while it is not known; null where no place before its own lets it in. */
  readonly cure?: Cure | null;
  readonly needs?: Needs;
  readonly twin?: string;
  /** Ends that must be welded, in part, before a later bar closes the way to them. */
  readonly weld: readonly { readonly end: "A" | "B"; readonly before: string; readonly share: number }[];
}

/** What was found out so far; kept by the page, by keys, so that stopping the worker loses nothing. */
export interface Known {
  readonly judged: ReadonlyMap<string, Judged>;
  /** The last answer of each bar, whatever it was among. */
  readonly last: ReadonlyMap<string, Judged>;
  /** By the key of the order and the bar. */
  readonly cures: ReadonlyMap<string, FoundCure>;
  readonly reach: ReadonlyMap<string, readonly Reach[]>;
}

/** The bars that the job itself puts in order, each once. */
export function inJobOrder(document: JobDocument): readonly string[] {
  const bars = thingsOf(document, "bar");
  const listed = at(document, ["order"]);
  const given = Array.isArray(listed) ? listed.filter((id): id is string => typeof id === "string") : [];
  return given.filter((id, i) => Object.hasOwn(bars, id) && given.indexOf(id) === i);
}

/**
 * All bars in the order in which they go in: as the job says; those that it leaves out after them, each behind what it
 * lands on, else as the job lists them.
 */
export function orderOf(document: JobDocument, bars: ReadonlyMap<string, BarResult>): readonly string[] {
  const all = Object.keys(thingsOf(document, "bar"));
  const out = [...inJobOrder(document)];
  const seen = new Set(out);
  const add = (id: string): void => {
    if (seen.has(id) || !all.includes(id)) return;
    seen.add(id);
    for (const host of hostsOf(bars.get(id))) add(host);
    out.push(id);
  };
  for (const id of all) add(id);
  return out;
}

export const cureKey = (orderKey: string, id: string): string => `${orderKey} for ${id}`;

/** The row of tags as it is. */
export function rowOf(
  document: JobDocument,
  job: Job,
  results: Results,
  keys: Keys,
  known: Known,
  twins: ReadonlyMap<string, string>,
): readonly Tag[] {
  const order = orderOf(document, results.bars);
  const solid = order.filter((id) => results.bars.has(id));
  const orderKey = keys.ofOrder(solid);
  const reach = known.reach.get(orderKey) ?? [];
  const isIn = new Set<string>();
  return order.map((id, i) => {
    const key = keys.of(id, [...isIn]);
    const found = key === undefined ? undefined : known.judged.get(key);
    const judged = found ?? known.last.get(id);
    const missing = [...new Set(hostsOf(results.bars.get(id)))].filter((h) => !isIn.has(h));
    const cure =
      found?.goesIn !== "no"
        ? undefined
        : missing.length > 0
          ? behind(missing, id, order)
          : foundCure(known.cures.get(cureKey(orderKey, id)));
    if (key !== undefined) isIn.add(id);
    const needs = job.bars[id]?.needs;
    const twin = twins.get(id);
    return {
      id,
      n: i + 1,
      label: calledOf(document, "bar", id),
      state: key === undefined ? "placeless" : stateOf(found),
      missing,
      ...(judged ? { judged } : {}),
      ...(cure === undefined ? {} : { cure }),
      ...(needs ? { needs } : {}),
      ...(twin === undefined ? {} : { twin }),
      weld: reach
        .filter((r) => r.bar === id)
        .flatMap((r) => r.before.map((b) => ({ end: r.end, before: b.bar, share: b.share }))),
    };
  });
}

const stateOf = (found: Judged | undefined): Tag["state"] =>
  found === undefined || found.goesIn === "unknown" ? "unseen" : found.goesIn;

/** Just behind the last of its hosts: before the bar that now follows that one, or last. */
function behind(hosts: readonly string[], id: string, order: readonly string[]): Cure {
  const last = Math.max(...hosts.map((h) => order.indexOf(h)));
  return { before: order.slice(last + 1).find((other) => other !== id) ?? null };
}

const foundCure = (found: FoundCure | undefined): Cure | null | undefined =>
  found && (found.before === null ? null : { before: found.before });
