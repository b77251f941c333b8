import type { Job } from "../../core/job/index.ts";
import type { Command, JobDocument } from "../model/document/index.ts";

/** What sheets are of, and how a change of it is done: the job in hand, or a page's own small one. */
export interface Edit {
  readonly document: JobDocument;
  /** The same as it is read, where it can be. */
  readonly job: Job | undefined;
  readonly show: { readonly length: "mm" | "in"; readonly fraction: number };
  readonly run: (command: Command) => void;
  /** Where measured points are, for a place to be one of them. */
  readonly points?: Readonly<Record<string, { readonly at: readonly [number, number, number] }>>;
}
