import { unwrap } from "idb";
import { RECORD } from "../../../words/index.ts";
import { type Database, goneKey, type StoreName } from "./database.ts";
import type { Found, JobRecord } from "./port.ts";

/** Every entry of the list by its ID. One that cannot be read is in it too, with the reason. */
export async function entriesOf(db: Database): Promise<ReadonlyMap<string, Found>> {
  const { keys, found } = await everything(db, "jobs");
  return new Map(found.map((one, i) => [String(keys[i]), one]));
}

/** A job's record, as far as it can be read; undefined where nothing of that ID is there. */
export async function recordOf(db: Database, id: string): Promise<JobRecord | undefined> {
  const [entries, { keys, found }] = await Promise.all([
    everything(db, "jobs", id),
    everything(db, "updates", id),
  ]);
  const entry = entries.found[0] ?? NOT_LISTED;
  if (entry === NOT_LISTED && keys.length === 0) return undefined;
  const updates = found.map((one) =>
    "why" in one ? one : { value: (one.value as { readonly update?: unknown } | undefined)?.update },
  );
  return { entry, updates, keys: keys.map(Number) };
}

export const NOT_LISTED: Found = { why: RECORD.notListed };

/** The numbers of a job's updates. */
export const updateKeys = (db: Database, id: string): Promise<readonly number[]> =>
  db.getAllKeysFromIndex("updates", "job", id);

interface Everything {
  readonly keys: readonly IDBValidKey[];
  readonly found: readonly Found[];
}

/** All records of a store, or those of one job, with their keys, as of one moment. */
async function everything(db: Database, name: StoreName, id?: string): Promise<Everything> {
  try {
    const transaction = unwrap(db).transaction(name);
    const source = sourceOf(transaction, name);
    const [keys, values] = [asked(source.getAllKeys(id)), asked<unknown[]>(source.getAll(id))];
    // Nothing more is asked: a write behind it need not wait until the page has time for the answers.
    transaction.commit();
    const found = (await values).map((value) => ({ value }));
    return { keys: await keys, found };
  } catch {
    return oneByOne(unwrap(db).transaction(name), name, id);
  }
}

/**
 * The same one record at a time, so that one that the browser cannot read spoils no other. In one transaction, which
 * a failed request would end if its event went on.
 */
async function oneByOne(transaction: IDBTransaction, name: StoreName, id?: string): Promise<Everything> {
  const keys = await asked(sourceOf(transaction, name).getAllKeys(id));
  const store = transaction.objectStore(name);
  const found = keys.map((key): Promise<Found> => {
    const request = store.get(key);
    request.addEventListener("error", (event) => event.preventDefault());
    return asked<unknown>(request).then(
      (value) => ({ value }),
      (error: unknown) => ({
        why: RECORD.unreadable((error as Partial<Error> | null)?.name),
      }),
    );
  });
  return { keys, found: await Promise.all(found) };
}

const sourceOf = (transaction: IDBTransaction, name: StoreName): IDBObjectStore | IDBIndex =>
  name === "updates" ? transaction.objectStore(name).index("job") : transaction.objectStore(name);

/** As idb's own, for requests whose failure must not end their transaction. */
const asked = <T>(request: IDBRequest<T>): Promise<T> => {
  const answer = new Promise<T>((resolve, reject) => {
    request.addEventListener("success", () => resolve(request.result));
    request.addEventListener("error", () => reject(request.error));
  });
  // of two that fail together one is waited for first
  answer.catch(() => {});
  return answer;
};

/** Jobs of which there are updates, and neither an entry in the list nor a word that they were removed. */
export async function jobsWithoutEntry(
  db: Database,
  entries: ReadonlyMap<string, Found>,
): Promise<readonly string[]> {
  const found: string[] = [];
  const transaction = db.transaction(["updates", "device"]);
  let cursor = await transaction.objectStore("updates").index("job").openKeyCursor(null, "nextunique");
  for (; cursor; cursor = await cursor.continue()) {
    const id = String(cursor.key);
    if (entries.has(id)) continue;
    const gone = await transaction.objectStore("device").getKey(goneKey(id));
    if (gone === undefined) found.push(id);
  }
  await transaction.done;
  return found;
}
