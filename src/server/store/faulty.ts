import { setTimeout as sleep } from "node:timers/promises";
import type { Base, Change, Json, Kind, ShopStore, Stored, Watch } from "./port.ts";
import { NotStored } from "./port.ts";
import { Queue } from "./queue.ts";

/** How often something goes wrong, each from 0 to 1, and for how long a call or a notification waits at most, ms. */
export interface Faults {
  /** A call is refused and nothing is done. */
  readonly refuse: number;
  /** A call is done and its answer is lost: it is refused all the same, as unreachable. */
  readonly tear: number;
  /** A notification comes twice. */
  readonly twice: number;
  readonly wait: number;
}

/**
 * For tests: a store over another one that refuses, loses answers, waits, and tells late, twice and in another order,
 * all by `random` (numbers in [0, 1)). What it keeps to is what the port says: calls are done in their order, what
 * rejects for another reason than `unreachable` is not done, and each notification comes at least once.
 */
export function faulty(inner: ShopStore, random: () => number, faults: Faults): ShopStore {
  const queue = new Queue();
  const late = () => sleep(random() * faults.wait);
  function call<T>(work: () => Promise<T>): Promise<T> {
    return queue.run(["all"], async () => {
      await late();
      if (random() < faults.refuse) {
        const why = (["full", "unreachable", "other"] as const)[Math.floor(random() * 3)];
        throw new NotStored(why ?? "other", new Error("refused by the test"));
      }
      const result = await work();
      if (random() < faults.tear) throw new NotStored("unreachable", new Error("answer lost by the test"));
      return result;
    });
  }
  const tell = (what: () => void): void => {
    for (let i = random() < faults.twice ? 2 : 1; i > 0; i--) void late().then(what);
  };
  return {
    append: (changes: readonly Change[]) => call(() => inner.append(changes)),
    read: (job: string) => call(() => inner.read(job)),
    fetch: (job: string, seqs: readonly number[]) => call(() => inner.fetch(job, seqs)),
    history: (job: string, after: number, limit: number) => call(() => inner.history(job, after, limit)),
    counts: (job: string) => call(() => inner.counts(job)),
    compact: (job: string, was: number, base: Base, by: readonly Stored[]) =>
      call(() => inner.compact(job, was, base, by)),
    purge: (job: string) => call(() => inner.purge(job)),
    get: (kind: Kind, id: string) => call(() => inner.get(kind, id)),
    all: (kind: Kind) => call(() => inner.all(kind)),
    put: (kind: Kind, id: string, value: Json) => call(() => inner.put(kind, id, value)),
    swap: (kind: Kind, id: string, was: Json | undefined, value: Json | undefined) =>
      call(() => inner.swap(kind, id, was, value)),
    remove: (kind: Kind, id: string) => call(() => inner.remove(kind, id)),
    putBlob: (digest: string, bytes: Uint8Array) => call(() => inner.putBlob(digest, bytes)),
    blob: (digest: string) => call(() => inner.blob(digest)),
    watch: (watch: Watch) =>
      inner.watch({
        appended: (job, seqs) => tell(() => watch.appended(job, seqs)),
        changed: (kind, id) => tell(() => watch.changed(kind, id)),
        // these two stay in their order: a connection is lost before it is back
        lost: watch.lost,
        back: watch.back,
      }),
    close: () => queue.run(["all"], () => inner.close()),
  };
}
