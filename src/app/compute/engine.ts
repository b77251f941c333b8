import * as Comlink from "comlink";
import type { Engine } from "./protocol.ts";
import type { WorkerApi } from "./worker.ts";

/**
 * The engine in a worker of its own. `onFailure` is called once, when the worker cannot be started or stops for good;
 * what was asked of it stays unanswered, and the caller goes on with an engine in the page.
 */
export function workerEngine(onFailure: () => void): Engine {
  const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name: "computing" });
  worker.addEventListener("error", onFailure, { once: true });
  const remote = Comlink.wrap<WorkerApi>(worker);
  return {
    compute: (request) => remote.compute(request),
    notch: (request) => remote.notch(request),
    card: (request) => remote.card(request),
    pdf: (request) => remote.pdf(request),
    // Comlink's types lose what a generic call ties together
    ask: (kind, about) => remote.ask(kind, about) as never,
    close: () => worker.terminate(),
  };
}
