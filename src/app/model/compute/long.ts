import { LONG_WORK } from "../../../words/index.ts";
import type { JobDocument } from "../document/index.ts";
import type { LongAnswer, LongKind } from "./long-kinds/index.ts";
import type { LongTask, LongWord } from "./long-task.ts";

export interface Progress {
  /** 0 to 1. */
  readonly share: number;
  /** What it is at, in a word or two. */
  readonly at: string;
  /** A part of the answer that is there already. */
  readonly part?: unknown;
}

export interface LongRun<K extends LongKind> {
  /** The answer; undefined where it was stopped. Rejected, with a line for a person, where it could not be had. */
  readonly done: Promise<LongAnswer<K> | undefined>;
  /** Ends it at once: the worker that did it is gone. */
  stop(): void;
}

/** The part of a worker that a long run needs. */
type LongWorker = Pick<Worker, "postMessage" | "terminate" | "addEventListener">;

const newWorker = (): LongWorker =>
  new Worker(new URL("./long-worker.ts", import.meta.url), { type: "module", name: "long work" });

/**
 * Something that takes long, in a worker of its own: it says how far it has come, never makes the page or the plan
 * wait, and can be stopped at any moment. The kinds are in long-kinds/, a file each.
 */
export function runLong<K extends LongKind>(
  kind: K,
  document: JobDocument,
  onProgress: (progress: Progress) => void,
  start: () => LongWorker = newWorker,
  asked?: unknown,
): LongRun<K> {
  let worker: LongWorker;
  try {
    worker = start();
  } catch {
    return { done: Promise.reject(new Error(LONG_WORK.noWorker)), stop() {} };
  }
  const close = (): void => worker.terminate();
  let resolve!: (answer: LongAnswer<K> | undefined) => void;
  let reject!: (why: Error) => void;
  const done = new Promise<LongAnswer<K> | undefined>((yes, no) => {
    resolve = yes;
    reject = no;
  });
  worker.addEventListener("message", ((event: MessageEvent<LongWord>) => {
    const word = event.data;
    if (word.is === "progress") return onProgress(word);
    close();
    if (word.is === "done") resolve(word.answer as LongAnswer<K>);
    else reject(new Error(word.why));
  }) as EventListener);
  worker.addEventListener("error", () => {
    close();
    reject(new Error("the computation stopped; this device may be short of memory"));
  });
  const task: LongTask = { kind, document, ...(asked === undefined ? {} : { asked }) };
  worker.postMessage(task);
  return {
    done,
    stop() {
      close();
      resolve(undefined);
    },
  };
}
