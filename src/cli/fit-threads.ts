import { Worker } from "node:worker_threads";
import type { Judged } from "../core/fit/index.ts";
import type { FitCall, Unit } from "./fit-units.ts";

type Said = { readonly judged: Judged } | { readonly done: true };

/**
 * Judges units in so many threads, each taking the next as it gets free. Told of every bar as it comes in, whatever
 * the order. A thread that fails ends all of them and the call.
 */
export async function judgeInThreads(
  entry: URL,
  threads: number,
  call: FitCall,
  units: readonly Unit[],
  told: (judged: Judged) => void,
): Promise<void> {
  const left = [...units];
  const workers: Worker[] = [];
  const one = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const worker = new Worker(entry, { workerData: call });
      workers.push(worker);
      const next = (): void => {
        const unit = left.shift();
        if (unit) worker.postMessage(unit);
        else resolve();
      };
      worker.on("message", (said: Said) => {
        if ("judged" in said) told(said.judged);
        else next();
      });
      worker.on("error", reject);
      next();
    });
  try {
    await Promise.all(Array.from({ length: Math.min(threads, units.length) }, one));
  } finally {
    await Promise.all(workers.map((w) => w.terminate()));
  }
}
