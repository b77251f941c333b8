import * as Comlink from "comlink";
import type { Engine } from "./protocol.ts";
import type { WorkerApi } from "./worker.ts";

/** A worker that has not begun to run after so long (ms) counts as one that cannot be started. */
const STARTS_WITHIN = 10_000;

/**
 * The engine in a worker of its own. `onFailure` is called once, when the worker cannot be started or stops for good;
 * what was asked of it stays unanswered, and the caller goes on with an engine in the page. Throws where the browser
 * has no workers.
 */
export function workerEngine(onFailure: () => void): Engine {
  const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name: "computing" });
  const remote = Comlink.wrap<WorkerApi>(worker);
  let isOver = false;
  const fail = (): void => {
    if (!isOver) onFailure();
    isOver = true;
  };
  worker.addEventListener("error", fail);
  const silent = setTimeout(fail, STARTS_WITHIN);
  void remote.ping().then(() => clearTimeout(silent));
  return {
    compute: (request) => remote.compute(request),
    notch: (request) => remote.notch(request),
    card: (request) => remote.card(request),
    preview: (request) => remote.preview(request),
    pdf: (request) => remote.pdf(request),
    // Comlink's types lose what a generic call ties together
    ask: (kind, about) => remote.ask(kind, about) as never,
    close() {
      isOver = true;
      clearTimeout(silent);
      worker.terminate();
    },
  };
}
