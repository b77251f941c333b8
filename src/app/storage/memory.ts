import type { Json } from "../document/index.ts";
import { type Disk, type JobEntry, JobGone } from "./port.ts";

/** A disk that lasts as long as the page: for tests, and where a browser keeps nothing. */
export function memoryDisk(): Disk {
  const jobs = new Map<string, { entry: JobEntry; updates: (readonly [number, Uint8Array])[] }>();
  const device = new Map<string, Json>();
  let next = 1;
  return {
    jobs: async () => [...jobs.values()].map((job) => job.entry),
    async read(id) {
      const job = jobs.get(id);
      return job && { entry: job.entry, updates: job.updates.map(([, u]) => u), upTo: next - 1 };
    },
    async begin(entry, update) {
      jobs.set(entry.id, { entry, updates: [[next++, update]] });
    },
    async append(entry, update) {
      const job = jobs.get(entry.id);
      if (!job) throw new JobGone();
      jobs.set(entry.id, { entry, updates: [...job.updates, [next++, update]] });
    },
    async replace(id, upTo, update) {
      const job = jobs.get(id);
      if (job) job.updates = [[upTo, update], ...job.updates.filter(([n]) => n > upTo)];
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
