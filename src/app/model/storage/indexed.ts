import { type IDBPObjectStore, unwrap } from "idb";
import { type Database, goneKey, opened, type Schema, type StoreName } from "./database.ts";
import { type Disk, JobGone } from "./port.ts";
import { entriesOf, jobsWithoutEntry, NOT_LISTED, recordOf, updateKeys } from "./records.ts";

type Requests = readonly (() => Promise<unknown>)[];
/** A store of the transaction by its name. */
type Of = <N extends StoreName>(name: N) => IDBPObjectStore<Schema, [N], N, "readwrite">;

/** A database that could not be opened is tried again after so long (ms). */
const PAUSE = 2000;

/** The browser's own database, and whether it opens. */
export interface IndexedDisk extends Disk {
  opened(): Promise<void>;
}

/**
 * The browser's own database: one for all jobs, so that a change and its entry in the list are one transaction.
 *
 * Every write is issued whole in the turn in which it is asked for, and committed in that same turn: none waits for
 * an answer. So the browser finishes it while the page is busy (docs/decisions/keeping.md).
 */
export function indexedDisk(factory: IDBFactory): IndexedDisk {
  let opening: Promise<Database> | undefined;
  let open: Database | undefined;
  let connection = 0;
  /** Looked for once: that takes a walk along all updates, and nothing of ours makes such jobs. */
  let unlisted: readonly string[] | undefined;

  function forget(): void {
    opening = undefined;
    open = undefined;
  }

  async function openIt(): Promise<Database> {
    try {
      open = await opened(factory, forget);
      connection++;
      return open;
    } catch (error) {
      // not at every edit: a database that is opened again and again on a full disk does not become better
      setTimeout(forget, PAUSE);
      throw error;
    }
  }

  /** Does it in this very turn where the database is open, as it is but for a moment. */
  function soon<T>(work: (db: Database) => Promise<T>): Promise<T> {
    if (open) {
      try {
        return work(open);
      } catch (error) {
        // only a connection that was closed under us is opened anew
        if (!(error instanceof DOMException && error.name === "InvalidStateError"))
          return Promise.reject(error);
        forget();
      }
    }
    opening ??= openIt();
    return opening.then(work);
  }

  const write = (names: StoreName[], requests: (of: Of) => Requests): Promise<void> =>
    soon((db) => {
      const transaction = db.transaction(names, "readwrite", { durability: "strict" });
      transaction.done.catch(() => {});
      const asked: Promise<unknown>[] = [];
      try {
        for (const request of requests((name) => transaction.objectStore(name) as never))
          asked.push(request());
        transaction.commit();
      } catch (error) {
        transaction.abort();
        return confirmed(unwrap(transaction), asked, error);
      }
      return confirmed(unwrap(transaction), asked);
    });

  return {
    opened: () => soon(async () => {}),
    jobs: () =>
      soon(async (db) => {
        const entries = await entriesOf(db);
        unlisted ??= await jobsWithoutEntry(db, entries);
        return new Map([...unlisted.map((id) => [id, NOT_LISTED] as const), ...entries]);
      }),
    read: (id) => soon((db) => recordOf(db, id)),
    begin: (entry, update) =>
      write(["jobs", "updates"], (of) => [
        () => of("jobs").put(entry),
        () => of("updates").add({ job: entry.id, update }),
      ]),
    append: (entry, update) =>
      write(["jobs", "updates", "device"], (of) => [
        ...unlessGone(of, entry.id),
        () => of("jobs").put(entry),
        () => of("updates").add({ job: entry.id, update }),
      ]),
    replace: (id, keys, update) =>
      write(["updates", "device"], (of) => [
        ...unlessGone(of, id),
        ...keys.map((key) => () => of("updates").delete(key)),
        // under the last of the old numbers, so that it stays before whatever was added meanwhile
        () => of("updates").put({ job: id, update }, keys.at(-1)),
      ]),
    async remove(id) {
      const keys = await soon((db) => updateKeys(db, id));
      unlisted = unlisted?.filter((other) => other !== id);
      await write(["jobs", "updates", "device"], (of) => [
        () => of("device").put(true, goneKey(id)),
        () => of("jobs").delete(id),
        ...keys.map((key) => () => of("updates").delete(key)),
      ]);
    },
    get: (key) => soon((db) => db.get("device", key)),
    put: (key, value) => write(["device"], (of) => [() => of("device").put(value, key)]),
    renew() {
      open?.close();
      forget();
    },
    connection: () => (open ? connection : undefined),
  };
}

/**
 * Makes the transaction fail where the job was removed, without asking first: a key that is there cannot be added,
 * one that is not is taken out again at once.
 */
const unlessGone = (of: Of, id: string): Requests => [
  () =>
    of("device")
      .add(true, goneKey(id))
      .catch((error: unknown) => {
        throw (error as Partial<DOMException>).name === "ConstraintError" ? new JobGone() : error;
      }),
  () => of("device").delete(goneKey(id)),
];

/** Resolves when the transaction is committed; else rejects with the cause, not with what that brought down with it. */
async function confirmed(
  transaction: IDBTransaction,
  requests: readonly Promise<unknown>[],
  thrown?: unknown,
): Promise<void> {
  // idb's own `done` takes the first failed request for the cause, and on a full disk that knows none
  const ended = new Promise<void>((resolve, reject) => {
    transaction.addEventListener("complete", () => resolve());
    transaction.addEventListener("abort", () =>
      reject(transaction.error ?? new DOMException("", "AbortError")),
    );
  });
  const all = await Promise.allSettled([ended, ...requests]);
  if (thrown !== undefined) throw thrown;
  const reasons = all.flatMap((end) => (end.status === "rejected" ? [end.reason as Error] : []));
  const own = reasons.find((reason) => reason.name === "JobGone");
  if (all[0]?.status === "rejected") throw own ?? reasons.find((r) => r.name !== "AbortError") ?? reasons[0];
}
