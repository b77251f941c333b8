// biome-ignore-all lint/style/noNonNullAssertion: every bar of this fitting has its entry in the map.
import { isIn, type Judged } from "../judge/index.ts";
import { above, type LandsOn, withLanders } from "../scene/index.ts";
import type { Ask } from "./fitting.ts";

/**
 * The least set found that, left untacked, lets a bar in; its hosts stay, and what lands on a bar of the set is of it
 * too. Empty where nothing that may be left out lets it in.
 *
 * First everything that may be left out is left out, and put back bar by bar as long as the bar still goes in: what
 * is left over is a set of which no single bar can be spared. Then every smaller set grown from one bar is tried, and
 * every one grown from two. So it is least up to two bars and what lands on them, as far as searches find what there
 * is; beyond that, merely small.
 */
export function leaving(stuck: Judged, ask: Ask, landsOn: LandsOn, stop: () => boolean): readonly string[] {
  const hosts = new Set(above(stuck.bar, landsOn));
  const free = stuck.after.filter((id) => !hosts.has(id));
  const goes = (gone: ReadonlySet<string>, quick: boolean): boolean =>
    isIn(
      ask(
        stuck.bar,
        stuck.after.filter((id) => !gone.has(id)),
        quick,
      ),
    );
  let gone: ReadonlySet<string> = new Set(free);
  if (free.length === 0 || stop() || !goes(gone, false)) return [];
  // Hosts come before what lands on them in the order that it was stuck in.
  const likely = new Set(stuck.blockedBy);
  const back = [...free.filter((id) => !likely.has(id)), ...free.filter((id) => likely.has(id))];
  for (let again = true; again; ) {
    again = false;
    for (const id of back) {
      if (stop() || !gone.has(id) || landsOn.get(id)!.some((h) => gone.has(h))) continue;
      const fewer = new Set([...gone].filter((g) => g !== id));
      if (!goes(fewer, true)) continue;
      gone = fewer;
      again = true;
    }
  }
  const sets = [
    ...free.map((id) => withLanders([id], stuck.after, landsOn)),
    ...free.flatMap((a, i) => free.slice(i + 1).map((b) => withLanders([a, b], stuck.after, landsOn))),
  ];
  for (const set of sets.sort((a, b) => a.size - b.size)) {
    if (set.size >= gone.size || stop()) break;
    if (goes(set, true)) return inOrder(set, stuck.after);
  }
  return inOrder(gone, stuck.after);
}

const inOrder = (set: ReadonlySet<string>, order: readonly string[]): readonly string[] =>
  order.filter((id) => set.has(id));
