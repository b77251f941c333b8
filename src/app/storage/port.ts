import type * as Y from "yjs";
import type { JobDocument, Json } from "../document/index.ts";

/** A job that the device keeps. */
export interface JobEntry {
  readonly id: string;
  readonly name: string;
  /** When it was last changed, milliseconds since 1970. */
  readonly changed: number;
  /** The file that it came from, and a digest of that file's text, so that the same file is not taken in twice. */
  readonly file?: { readonly name: string; readonly digest: string };
}

/** Whether what is on the screen is also on the device. `why` is a sentence for a person. */
export type Kept =
  | { readonly state: "kept" }
  | { readonly state: "keeping" }
  | { readonly state: "refused"; readonly why: string };

/** An open job. Its document is whole from the first moment, and every change of it is committed within a second. */
export interface KeptJob {
  readonly entry: JobEntry;
  readonly doc: Y.Doc;
  kept(): Kept;
  subscribe(listener: () => void): () => void;
  /** Commits what waits without delay; resolves when nothing waits any more: kept, or refused. */
  settled(): Promise<Kept>;
  /** Commits what waits and lets go; the document itself stays usable. */
  close(): Promise<void>;
}

/** Where jobs are kept. Every adapter runs the same suite (store.test.ts). */
export interface JobStore {
  /** Newest change first. */
  list(): Promise<readonly JobEntry[]>;
  /** A new job. Opened even where the device refuses to keep it: then its state says so. */
  create(document: JobDocument, file?: JobEntry["file"]): Promise<KeptJob>;
  /** Undefined where there is no such job (any more). */
  open(id: string): Promise<KeptJob | undefined>;
  delete(id: string): Promise<void>;
  /** Small things of this device: the job last open, steps done at a station. A refusal is not told: nothing is lost. */
  recall(key: string): Promise<Json | undefined>;
  remember(key: string, value: Json): Promise<void>;
}

/** What an adapter does; each call is all or nothing, and rejects where it could not be done. */
export interface Disk {
  jobs(): Promise<readonly JobEntry[]>;
  /** The updates of a job in order, and a mark for `replace`. */
  read(
    id: string,
  ): Promise<
    { readonly entry: JobEntry; readonly updates: readonly Uint8Array[]; readonly upTo: number } | undefined
  >;
  /** Adds a job with its first update. */
  begin(entry: JobEntry, update: Uint8Array): Promise<void>;
  /** Adds an update and renews the entry; rejects with `JobGone` where the job is not there. */
  append(entry: JobEntry, update: Uint8Array): Promise<void>;
  /** Puts one update in place of all up to the mark. */
  replace(id: string, upTo: number, update: Uint8Array): Promise<void>;
  remove(id: string): Promise<void>;
  get(key: string): Promise<Json | undefined>;
  put(key: string, value: Json): Promise<void>;
}

/** The job was deleted by someone else, in another window of this device. */
export class JobGone extends Error {
  override readonly name = "JobGone";
}

/** A refusal of the device in words that say what to do. */
export function refusalOf(error: unknown): string {
  const name = error instanceof Error || error instanceof DOMException ? error.name : "";
  const todo = "Save the job to a file.";
  if (name === "QuotaExceededError")
    return `This device's storage is full: the last changes are not kept. ${todo}`;
  if (name === "JobGone") return `This job was deleted in another window: changes are not kept. ${todo}`;
  const reason = name === "" ? "" : ` (${name})`;
  return `This device refuses to keep the job${reason}: a closed page loses it. ${todo}`;
}
