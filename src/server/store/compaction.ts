import * as Y from "yjs";
import type { Base, Kept, ShopStore, Stored } from "./port.ts";

/** A job is compacted when nobody has changed it for so long, milliseconds, */
export const QUIET = 10_000;
/** and so many changes lie behind its base: below that it opens at once anyway; */
export const ENOUGH = 200;
/** or so many, however busy it is. */
export const MANY = 5_000;

/** How many changes are made into a base at once: the server answers other jobs between two portions. */
const PORTION = 2_000;

/** Every time zone's hours begin at a quarter of an hour of UTC (some at :30 or :45), so hours of each stay whole. */
const QUARTER = 15 * 60 * 1000;

/** Whether it is time to compact a job of so many changes behind its base, the last one made at `last`. */
export const isDue = (behind: number, last: number, now: number): boolean =>
  behind > MANY || (behind >= ENOUGH && now - last >= QUIET);

/**
 * What stands for the changes `log` (one at least) behind `base`. `marks`: the `seq` of the job's named states, whose
 * changes are made one with none behind them.
 *
 * The base goes through a document, which drops what was deleted and joins what was typed in pieces: `mergeUpdates`
 * keeps both, so it is never shorter. What a document cannot place yet, since something before it is lacking, it hands
 * on too.
 *
 * The history keeps what was deleted, since an earlier hour had it: the changes of one device in one quarter of an hour
 * are joined by `mergeUpdates`. Such a one has the `seq` and `at` of its last (a reader who stops at a mark or the end
 * of an hour has all of it) and the least `seen` (it never claims that a maker had seen what he had not).
 */
export function compacted(
  base: Base | undefined,
  log: readonly Stored[],
  marks: Iterable<number>,
): { readonly base: Base; readonly by: readonly Stored[] } {
  const last = log.at(-1);
  if (!last) throw new RangeError("nothing behind the base");
  const doc = new Y.Doc();
  doc.transact(() => {
    for (const { update } of [...(base ? [base] : []), ...log]) Y.applyUpdate(doc, update);
  });
  const update = Y.encodeStateAsUpdate(doc);
  doc.destroy();
  const at = log.reduce((latest, c) => Math.max(latest, c.at), base?.at ?? 0);
  return { base: { seq: last.seq, at, update }, by: joined(log, marks) };
}

/** The changes with those of one device, one quarter of an hour and one side of every mark made one, in order. */
function joined(log: readonly Stored[], marks: Iterable<number>): readonly Stored[] {
  const borders = [...marks].sort((a, b) => a - b);
  let passed = 0;
  const groups = new Map<string, Stored[]>();
  for (const change of log) {
    while (passed < borders.length && (borders[passed] as number) < change.seq) passed++;
    const key = JSON.stringify([change.device, Math.floor(change.at / QUARTER), passed]);
    const group = groups.get(key);
    if (group) group.push(change);
    else groups.set(key, [change]);
  }
  return [...groups.values()].map(oneOf).sort((a, b) => a.seq - b.seq);
}

function oneOf(group: readonly Stored[]): Stored {
  const last = group.at(-1) as Stored;
  if (group.length === 1) return last;
  return {
    ...last,
    at: group.reduce((latest, c) => Math.max(latest, c.at), 0),
    seen: group.reduce((least, c) => Math.min(least, c.seen), last.seen),
    update: merged(group.map((c) => c.update)),
  };
}

/** By halves: merging many at once sorts all of them anew for each piece. */
function merged(updates: readonly Uint8Array[]): Uint8Array {
  if (updates.length <= 8) return Y.mergeUpdates([...updates]);
  const half = updates.length >> 1;
  return Y.mergeUpdates([merged(updates.slice(0, half)), merged(updates.slice(half))]);
}

/**
 * Compacts a job, portion by portion, each one whole or not at all. `marks` as above. Says whether anything was done;
 * where another server does the same, the later one leaves off.
 */
export async function compact(store: ShopStore, job: string, marks: Iterable<number>): Promise<boolean> {
  const kept: Kept | undefined = await store.read(job);
  if (!kept) return false;
  let { base } = kept;
  const borders = [...marks];
  for (let from = 0; from < kept.log.length; from += PORTION) {
    const next = compacted(base, kept.log.slice(from, from + PORTION), borders);
    if (!(await store.compact(job, base?.seq ?? 0, next.base, next.by))) return from > 0;
    base = next.base;
    await new Promise((done) => setImmediate(done));
  }
  return kept.log.length > 0;
}
