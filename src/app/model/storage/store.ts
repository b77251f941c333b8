import * as Y from "yjs";
import { at, fromJson, nameIn } from "../document/index.ts";
import { entryFrom, readRecord } from "./damage.ts";
import { keep } from "./keeper.ts";
import { within } from "./limit.ts";
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
    ...(disk.passing === undefined ? {} : { passing: disk.passing }),
    async list() {
      const jobs = [...(await within(disk.jobs()))].map(([id, found]) => entryFrom(id, found));
      return jobs.sort((a, b) => b.changed - a.changed || (a.id < b.id ? -1 : 1));
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
      const record = await within(disk.read(id));
      if (!record) return { is: "gone" };
      const read = readRecord(id, record);
      if ("damaged" in read) return { is: "damaged", damaged: read.damaged };
      const { doc } = read;
      if (record.keys.length > MANY) {
        // Only tidying: where the device refuses, the updates stay as they are.
        await within(disk.replace(id, record.keys, Y.encodeStateAsUpdate(doc))).catch(() => {});
      }
      return { is: "open", job: keep(disk, entryFrom(id, record.entry), doc, now) };
    },
    async adopt(id, doc) {
      const job = keep(disk, { id, name: nameIn(doc) ?? "", changed: now() }, doc, now, "new");
      await job.settled();
      return job;
    },
    delete: (id) => within(disk.remove(id)),
    recall: (key) => within(disk.get(key)).catch(() => undefined),
    remember: (key, value) => disk.put(key, value).catch(() => {}),
  };
}
