import * as Y from "yjs";
import type { Base, Kept, ShopStore, Stored } from "./port.ts";

/** A job is compacted when nobody has changed it for so long, milliseconds, */
export const QUIET = 10_000;
/** and so many changes lie behind its base: below that it opens at once anyway; */
export const ENOUGH = 200;
/** or so many, however busy it is. */
export const MANY = 2_000;

/** How many changes are made into a base at once: the server answers other jobs between two portions. */
const PORTION = 1_000;

/** Every time zone's hours begin at a quarter of an hour of UTC (some at :30 or :45), so hours of each stay whole. */
const QUARTER = 15 * 60 * 1000;

/** Whether it is time to compact a job of so many changes behind its base, the last one made at `last`. */
export const isDue = (behind: number, last: number, now: number): boolean =>
  behind > MANY || (behind >= ENOUGH && now - last >= QUIET);

/**
 * The changes of one device in one quarter of an hour, on one side of every mark, made one; in order. `marks`: the
 * `seq` of the job's named states, whose changes are made one with none behind them.
 *
 * The history keeps what was deleted, since an earlier hour had it: `mergeUpdates` joins updates and drops nothing.
 * What is joined has the `seq` and `at` of its last (a reader who stops at a mark or the end of an hour has all of it)
 * and the least `seen` (it never claims that a maker had seen what he had not).
 */
export function joined(log: readonly Stored[], marks: Iterable<number>): readonly Stored[] {
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

/** Lets the server do what waits. */
const breath = (): Promise<void> => new Promise((done) => setImmediate(done));

/**
 * Compacts a job, portion by portion, each one whole or not at all. `marks` as above. Says whether anything was done;
 * where another server does the same, the later one leaves off.
 *
 * The base goes through a document, which drops what was deleted and joins what was typed in pieces; `mergeUpdates`
 * keeps both, so it is never shorter. What a document cannot place yet, since something before it is lacking, it hands
 * on too. It is made from what the store has and not from a document that is open: that one may lack what another
 * server has just stored.
 */
export async function compact(store: ShopStore, job: string, marks: Iterable<number>): Promise<boolean> {
  const kept: Kept | undefined = await store.read(job);
  if (!kept || kept.log.length === 0) return false;
  const borders = [...marks];
  const doc = new Y.Doc();
  let base: Base = kept.base ?? { seq: 0, at: 0, update: new Uint8Array() };
  if (kept.base) Y.applyUpdate(doc, kept.base.update);
  for (let from = 0; from < kept.log.length; from += PORTION) {
    await breath();
    const portion = kept.log.slice(from, from + PORTION);
    doc.transact(() => {
      for (const { update } of portion) Y.applyUpdate(doc, update);
    });
    await breath();
    const by = joined(portion, borders);
    await breath();
    const at = portion.reduce((latest, c) => Math.max(latest, c.at), base.at);
    const next = { seq: by.at(-1)?.seq ?? base.seq, at, update: Y.encodeStateAsUpdate(doc) };
    if (!(await store.compact(job, base.seq, next, by))) return from > 0;
    base = next;
  }
  return true;
}
