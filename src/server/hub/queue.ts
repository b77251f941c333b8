import { type Change, NotStored, type ShopStore } from "../store/index.ts";

/** What became of a change: the number under which it is stored, or why it is not. */
export type Fate = { readonly seq: number } | { readonly why: NotStored["why"] };

interface Waiting {
  readonly change: Change;
  readonly done: (fate: Fate) => void;
}

/** As many bytes as one transaction takes: whoever waits behind a long one waits no longer than for this. */
const BATCH = 4 * 1024 * 1024;

export interface Queue {
  /** `done` is called once, when the change is stored, or not. Of one job in the order in which they came. */
  put(change: Change, done: (fate: Fate) => void): void;
  /** Resolves when nothing waits any more. */
  empty(): Promise<void>;
}

/**
 * One transaction for all that waits, one after the other. What comes while one is on its way goes with the next: the
 * more there is, the more a transaction holds.
 */
export function queueTo(store: Pick<ShopStore, "append">): Queue {
  let waiting: Waiting[] = [];
  let running: Promise<void> | undefined;

  function next(): readonly Waiting[] {
    let bytes = 0;
    let n = 0;
    for (; n < waiting.length; n++) {
      bytes += waiting[n]?.change.update.byteLength ?? 0;
      if (n > 0 && bytes > BATCH) break;
    }
    const batch = waiting.slice(0, n);
    waiting = waiting.slice(n);
    return batch;
  }

  async function run(): Promise<void> {
    // what comes in this turn goes along
    await Promise.resolve();
    while (waiting.length > 0) {
      const batch = next();
      const fates = await stored(batch.map((w) => w.change));
      for (const [i, { done }] of batch.entries()) done(fates[i] ?? { why: "other" });
    }
    running = undefined;
  }

  async function stored(changes: readonly Change[]): Promise<readonly Fate[]> {
    try {
      return (await store.append(changes)).map((seq) => ({ seq }));
    } catch (error) {
      const why = error instanceof NotStored ? error.why : "other";
      return changes.map(() => ({ why }));
    }
  }

  return {
    put(change, done) {
      waiting.push({ change, done });
      running ??= run();
    },
    async empty() {
      while (running) await running;
    },
  };
}
