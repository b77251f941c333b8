import { compact, isDue, type ShopStore, shelf } from "../store/index.ts";

export interface Compacting {
  /** A job has a change more. */
  changed(job: string): void;
  close(): Promise<void>;
}

/** What is due is looked for this often (ms), one job after the other. */
const LOOK = 5000;

/** Compacts jobs that have become quiet, so that the next device opens them at once. */
export function compacting(store: ShopStore, now: () => number): Compacting {
  const behind = new Map<string, { count: number; last: number }>();
  let running: Promise<void> = Promise.resolve();
  const timer = setInterval(() => {
    running = running.then(look).catch(() => {});
  }, LOOK);
  timer.unref();

  async function look(): Promise<void> {
    for (const [job, { count, last }] of behind) {
      if (!isDue(count, last, now())) continue;
      behind.delete(job);
      await compact(store, job, await marksOf(store, job));
    }
  }

  return {
    changed(job) {
      const known = behind.get(job);
      if (known) {
        known.count++;
        known.last = now();
        return;
      }
      behind.set(job, { count: 1, last: now() });
      // what lay behind its base before this server began
      void store.counts(job).then(
        ({ log }) => {
          const found = behind.get(job);
          if (found) found.count = Math.max(found.count, log);
        },
        () => {},
      );
    },
    async close() {
      clearInterval(timer);
      await running;
    },
  };
}

/** The changes that a job's named states are of: what lies on either side stays apart. */
async function marksOf(store: ShopStore, job: string): Promise<readonly number[]> {
  const states = [...(await shelf(store, "state").all()).values()];
  return states.filter((state) => state.job === job).map((state) => state.seq);
}
