import { type DBSchema, type IDBPDatabase, wrap } from "idb";
import type { Json } from "../document/index.ts";
import type { JobEntry } from "./port.ts";

/**
 * One database for all jobs: the list, the updates of their documents in order, and small things of the device.
 * Types are what we write; what is found there is judged when it is read (records.ts).
 */
export interface Schema extends DBSchema {
  jobs: { key: string; value: JobEntry };
  updates: {
    key: number;
    value: { readonly job: string; readonly update: Uint8Array };
    indexes: { job: string };
  };
  device: { key: string; value: Json };
}
export type Database = IDBPDatabase<Schema>;
export type StoreName = "jobs" | "updates" | "device";

const NAME = "tubewright";
const VERSION = 1;

/** Under this key of `device` is written that a job was removed. */
export const goneKey = (id: string): string => `gone ${id}`;

/** Opens the database, however long that takes; `onClosed` when the connection cannot be used any more. */
export async function opened(factory: IDBFactory, onClosed: () => void): Promise<Database> {
  // by hand: idb's own openDB takes the factory from the page's globals
  const request = factory.open(NAME, VERSION);
  request.addEventListener("upgradeneeded", () => {
    const { result } = request;
    result.createObjectStore("jobs", { keyPath: "id" });
    result.createObjectStore("updates", { autoIncrement: true }).createIndex("job", "job");
    result.createObjectStore("device");
  });
  const result = await new Promise<IDBDatabase>((resolve, reject) => {
    request.addEventListener("success", () => resolve(request.result));
    request.addEventListener("error", () => reject(request.error));
  });
  const db = wrap(result) as unknown as Database;
  db.addEventListener("close", onClosed);
  // A newer version in another window waits for this one to let go.
  db.addEventListener("versionchange", () => {
    db.close();
    onClosed();
  });
  return db;
}
