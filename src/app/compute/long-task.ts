import { readJob } from "../../core/job/index.ts";
import { planJob } from "../../core/plan/index.ts";
import type { JobDocument } from "../document/index.ts";
import { LONG, type LongKind } from "./long-kinds/index.ts";

/** Page to worker, once. */
export interface LongTask {
  readonly kind: LongKind;
  readonly document: JobDocument;
}

/** Worker to page: progress as often as it likes, then one of the others. */
export type LongWord =
  | { readonly is: "progress"; readonly share: number; readonly at: string }
  | { readonly is: "done"; readonly answer: unknown }
  | { readonly is: "stopped"; readonly why: string };

/** Does a long task and says how far it has come. `tell` is the worker's own way to the page. */
export function doLong({ kind, document }: LongTask, tell: (word: LongWord) => void): void {
  const read = readJob(document);
  if (!read.ok) {
    tell({ is: "stopped", why: "the job does not pass; mend it first" });
    return;
  }
  try {
    const answer = LONG[kind](planJob(read.job), (share, at) => tell({ is: "progress", share, at }));
    tell({ is: "done", answer });
  } catch (error) {
    tell({ is: "stopped", why: error instanceof Error ? error.message : String(error) });
  }
}
