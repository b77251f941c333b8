import type { Page } from "playwright-core";
import type { App } from "../../src/app/model/state/state.ts";

type Window = typeof globalThis & { tubewright: App };

/** What the page's browser lacks or refuses; set before the page's own program runs. */
export const FAILURES = {
  "no database": () => Object.defineProperty(window, "indexedDB", { value: undefined }),
  "a database that may not be looked at": () =>
    Object.defineProperty(window, "indexedDB", {
      get() {
        throw new DOMException("denied", "SecurityError");
      },
    }),
  "a database that never opens": () => {
    IDBFactory.prototype.open = () => new EventTarget() as IDBOpenDBRequest;
  },
  "a database that cannot be opened on a full disk": () => {
    IDBFactory.prototype.open = () => {
      const request = new EventTarget();
      // as Chromium says it
      const error = new DOMException(
        "Encountered full disk while opening backing store.",
        "QuotaExceededError",
      );
      Object.setPrototypeOf(request, IDBRequest.prototype);
      Object.defineProperty(request, "error", { value: error });
      setTimeout(() => request.dispatchEvent(new Event("error")), 10);
      return request as IDBOpenDBRequest;
    };
  },
  "no worker": () => Object.defineProperty(window, "Worker", { value: undefined }),
  "a worker that never answers": () => {
    window.Worker = class extends EventTarget {
      postMessage() {}
      terminate() {}
    } as unknown as typeof Worker;
  },
  "no channel between windows": () => Object.defineProperty(window, "BroadcastChannel", { value: undefined }),
  "locks that are never granted": () => {
    LockManager.prototype.request = ((_: string, { signal }: LockOptions) =>
      new Promise((_resolve, reject) => {
        signal!.addEventListener("abort", () => reject(signal!.reason));
      })) as unknown as LockManager["request"];
  },
  "no locks": () => Object.defineProperty(navigator, "locks", { value: undefined }),
  "no storage manager": () => Object.defineProperty(navigator, "storage", { value: undefined }),
  "no digests": () => Object.defineProperty(crypto, "subtle", { value: undefined }),
} as const;

/** Writes into the page's database behind the program's back. */
export const tamper = (
  page: Page,
  how: {
    readonly put?: unknown;
    readonly del?: string;
    readonly store: string;
    readonly key?: string;
  },
): Promise<void> =>
  page.evaluate(
    ({ put, del, store, key }) =>
      new Promise<void>((resolve, reject) => {
        const request = indexedDB.open("tubewright");
        request.onerror = () => reject(request.error);
        request.onsuccess = () => {
          const transaction = request.result.transaction(store, "readwrite");
          if (put !== undefined) transaction.objectStore(store).put(put, key);
          if (del !== undefined) transaction.objectStore(store).delete(del);
          transaction.oncomplete = () => {
            request.result.close();
            resolve();
          };
        };
      }),
    how,
  );

export const stateOf = (page: Page) =>
  page.evaluate(() => {
    const { job, jobs, results, damaged } = (window as unknown as Window).tubewright.state.getState();
    return {
      id: job?.entry.id,
      name: job?.document.name,
      kept: job?.kept.state,
      jobs: jobs.map(({ id, name }) => ({ id, name })),
      bars: results.bars.size,
      damaged: damaged?.lines,
    };
  });
