import { STORED } from "../../../words/index.ts";
import type { Json } from "../document/index.ts";
import { type Disk, type JobEntry, JobGone } from "./port.ts";

/** A disk that lasts as long as the page: for tests, and where a browser keeps nothing; `passing` says why. */
export function memoryDisk(passing: string = STORED.passing): Disk {
  const jobs = new Map<string, { entry: JobEntry; updates: (readonly [number, Uint8Array])[] }>();
  const device = new Map<string, Json>();
  let next = 1;
  return {
    passing,
    jobs: async () => new Map([...jobs].map(([id, { entry }]) => [id, { value: entry }])),
    async read(id) {
      const job = jobs.get(id);
      return (
        job && {
          entry: { value: job.entry },
          updates: job.updates.map(([, value]) => ({ value })),
          keys: job.updates.map(([key]) => key),
        }
      );
    },
    async begin(entry, update) {
      const before = jobs.get(entry.id)?.updates ?? [];
      jobs.set(entry.id, { entry, updates: [...before, [next++, update]] });
    },
    async append(entry, update) {
      const job = jobs.get(entry.id);
      if (!job) throw new JobGone();
      jobs.set(entry.id, { entry, updates: [...job.updates, [next++, update]] });
    },
    async replace(id, keys, update) {
      const job = jobs.get(id);
      const last = keys.at(-1);
      if (job && last !== undefined)
        job.updates = [[last, update], ...job.updates.filter(([key]) => !keys.includes(key))];
    },
    async remove(id) {
      jobs.delete(id);
    },
    get: async (key) => device.get(key),
    async put(key, value) {
      device.set(key, value);
    },
  };
}
