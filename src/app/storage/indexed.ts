import type { Json } from "../document/index.ts";
import { type Disk, type JobEntry, JobGone } from "./port.ts";

/** Own and not y-indexeddb, which tells nobody when a write is refused (docs/decisions/keeping.md). */
const NAME = "tubewright";
const VERSION = 1;

interface StoredUpdate {
  readonly job: string;
  readonly update: Uint8Array;
}

/** The browser's own database: one for all jobs, so that a change and its entry in the list are one transaction. */
export function indexedDisk(factory: IDBFactory): Disk {
  let open: Promise<IDBDatabase> | undefined;

  function database(): Promise<IDBDatabase> {
    open ??= opened(factory, () => {
      open = undefined;
    });
    open.catch(() => {
      open = undefined;
    });
    return open;
  }

  /** Runs `work` in one transaction, and resolves with its result when that is committed. */
  async function within<T>(
    stores: readonly string[],
    mode: IDBTransactionMode,
    work: (store: (name: string) => IDBObjectStore, fail: (error: Error) => void) => Reading<T>,
  ): Promise<T> {
    const transaction = (await database()).transaction(stores, mode);
    return new Promise((resolve, reject) => {
      let failed: Error | undefined;
      const result = work(
        (name) => transaction.objectStore(name),
        (error) => {
          failed = error;
          transaction.abort();
        },
      );
      transaction.addEventListener("complete", () => resolve(result()));
      transaction.addEventListener("abort", () =>
        reject(failed ?? transaction.error ?? new Error("aborted")),
      );
    });
  }

  const byJob = (store: IDBObjectStore, id: string) =>
    store.index("job").getAll(id) as IDBRequest<StoredUpdate[]>;

  return {
    jobs: () => within(["jobs"], "readonly", (store) => reading<JobEntry[]>(store("jobs").getAll())),
    read: (id) =>
      within(["jobs", "updates"], "readonly", (store) => {
        const entry = reading<JobEntry | undefined>(store("jobs").get(id));
        const updates = reading(byJob(store("updates"), id));
        const keys = reading(store("updates").index("job").getAllKeys(id));
        return () => {
          const found = entry();
          if (!found) return undefined;
          return { entry: found, updates: updates().map((u) => u.update), upTo: Number(keys().at(-1) ?? 0) };
        };
      }),
    begin: (entry, update) =>
      within(["jobs", "updates"], "readwrite", (store) => {
        store("jobs").put(entry);
        store("updates").add({ job: entry.id, update });
        return () => undefined;
      }),
    append: (entry, update) =>
      within(["jobs", "updates"], "readwrite", (store, fail) => {
        const there = store("jobs").getKey(entry.id);
        there.addEventListener("success", () => {
          if (there.result === undefined) return fail(new JobGone());
          store("jobs").put(entry);
          store("updates").add({ job: entry.id, update });
        });
        return () => undefined;
      }),
    replace: (id, upTo, update) =>
      within(["updates"], "readwrite", (store) => {
        const keys = store("updates").index("job").getAllKeys(id);
        keys.addEventListener("success", () => {
          for (const key of keys.result) if (Number(key) <= upTo) store("updates").delete(key);
          // under the last of the old numbers, so that it stays before whatever was added meanwhile
          store("updates").put({ job: id, update }, upTo);
        });
        return () => undefined;
      }),
    remove: (id) =>
      within(["jobs", "updates"], "readwrite", (store) => {
        store("jobs").delete(id);
        const keys = store("updates").index("job").getAllKeys(id);
        keys.addEventListener("success", () => {
          for (const key of keys.result) store("updates").delete(key);
        });
        return () => undefined;
      }),
    get: (key) =>
      within(["device"], "readonly", (store) => reading<Json | undefined>(store("device").get(key))),
    put: (key, value) =>
      within(["device"], "readwrite", (store) => {
        store("device").put(value, key);
        return () => undefined;
      }),
  };
}

/** What a request will have found when its transaction is complete. */
type Reading<T> = () => T;
const reading =
  <T>(request: IDBRequest<T>): Reading<T> =>
  () =>
    request.result;

function opened(factory: IDBFactory, onClosed: () => void): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = factory.open(NAME, VERSION);
    request.addEventListener("upgradeneeded", () => {
      const { result } = request;
      result.createObjectStore("jobs", { keyPath: "id" });
      result.createObjectStore("updates", { autoIncrement: true }).createIndex("job", "job");
      result.createObjectStore("device");
    });
    request.addEventListener("error", () => reject(request.error));
    request.addEventListener("blocked", () => reject(new Error("blocked")));
    request.addEventListener("success", () => {
      const { result } = request;
      result.addEventListener("close", onClosed);
      result.addEventListener("versionchange", () => {
        result.close();
        onClosed();
      });
      resolve(result);
    });
  });
}
