import * as Y from "yjs";
import { at, fromJson } from "../document/index.ts";
import { keep } from "./keeper.ts";
import type { Disk, JobStore } from "./port.ts";

/** A job of more updates than this is written together as one when it is opened. */
const MANY = 200;

export interface StoreOptions {
  readonly now?: () => number;
  readonly newId?: () => string;
}

/** The store on any disk. */
export function storeOn(disk: Disk, options: StoreOptions = {}): JobStore {
  const { now = Date.now, newId = () => crypto.randomUUID() } = options;
  return {
    async list() {
      const jobs = await disk.jobs();
      return [...jobs].sort((a, b) => b.changed - a.changed || (a.id < b.id ? -1 : 1));
    },
    async create(document, file) {
      const name = at(document, ["name"]);
      const entry = {
        id: newId(),
        name: typeof name === "string" ? name : "",
        changed: now(),
        ...(file ? { file } : {}),
      };
      const job = keep(disk, entry, fromJson(document), now, "new");
      await job.settled();
      return job;
    },
    async open(id) {
      const found = await disk.read(id);
      if (!found) return undefined;
      const doc = new Y.Doc();
      // All updates before anyone sees the document: a half job is never shown.
      doc.transact(() => {
        for (const update of found.updates) Y.applyUpdate(doc, update);
      });
      if (found.updates.length > MANY) {
        // Only tidying: where the device refuses, the updates stay as they are.
        await disk.replace(id, found.upTo, Y.encodeStateAsUpdate(doc)).catch(() => {});
      }
      return keep(disk, found.entry, doc, now);
    },
    delete: (id) => disk.remove(id),
    recall: (key) => disk.get(key).catch(() => undefined),
    remember: (key, value) => disk.put(key, value).catch(() => {}),
  };
}
