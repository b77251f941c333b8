import { readAnyVersion } from "../../../core/job/index.ts";
import { planJob } from "../../../core/plan/index.ts";
import { LONG_WORK } from "../../../words/index.ts";
import type { JobDocument } from "../document/index.ts";
import { LONG, type LongKind } from "./long-kinds/index.ts";
import type { Report } from "./long-kinds/report.ts";

/** Page to worker, once. */
export interface LongTask {
  readonly kind: LongKind;
  readonly document: JobDocument;
  /** What just this kind is told besides. */
  readonly asked?: unknown;
}

/** Worker to page: progress as often as it likes, then one of the others. */
export type LongWord =
  | { readonly is: "progress"; readonly share: number; readonly at: string; readonly part?: unknown }
  | { readonly is: "done"; readonly answer: unknown }
  | { readonly is: "stopped"; readonly why: string };

/** Does a long task and says how far it has come. `tell` is the worker's own way to the page. */
export function doLong({ kind, document, asked }: LongTask, tell: (word: LongWord) => void): void {
  const read = readAnyVersion(document);
  if (!read.ok) {
    tell({ is: "stopped", why: LONG_WORK.noJob });
    return;
  }
  try {
    const report: Report = (share, at, part) =>
      tell({ is: "progress", share, at, ...(part === undefined ? {} : { part }) });
    const answer = LONG[kind](planJob(read.job), report, asked);
    tell({ is: "done", answer });
  } catch (error) {
    tell({ is: "stopped", why: error instanceof Error ? error.message : String(error) });
  }
}
