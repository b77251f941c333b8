import type * as Y from "yjs";
import type { JobDocument, Json } from "../document/index.ts";

/** A job that the device keeps. */
export interface JobEntry {
  readonly id: string;
  readonly name: string;
  /** When it was last changed, milliseconds since 1970; 0: not known. */
  readonly changed: number;
  /** The file that it came from, and a digest of that file's text, so that the same file is not taken in twice. */
  readonly file?: { readonly name: string; readonly digest: string };
}

/**
 * Whether what is on the screen is also on the device. `memory`: it is where the page is and nowhere else. `why` is
 * a sentence for a person.
 */
export type Kept =
  | { readonly state: "kept" }
  | { readonly state: "keeping" }
  | { readonly state: "memory"; readonly why: string }
  | { readonly state: "refused"; readonly why: string };

/** An open job. Its document is whole from the first moment, and every change of it is on its way to the disk at once. */
export interface KeptJob {
  readonly entry: JobEntry;
  readonly doc: Y.Doc;
  kept(): Kept;
  subscribe(listener: () => void): () => void;
  /** Resolves when nothing is on its way any more, or the disk has not answered for too long. */
  settled(): Promise<Kept>;
  /** Tries once more what was refused and lets go; the document itself stays usable. */
  close(): Promise<void>;
}

/** A job whose record cannot be read whole. The record itself is left as it is. */
export interface Damaged {
  readonly entry: JobEntry;
  /** What is wrong, for a person. */
  readonly lines: readonly string[];
  /** What can be read of it, where that is anything. */
  readonly document?: JobDocument;
  /** The record as it is stored, as the text of a file. */
  readonly raw: string;
}

export type Opened =
  | { readonly is: "open"; readonly job: KeptJob }
  | { readonly is: "damaged"; readonly damaged: Damaged }
  /** There is no such job (any more). */
  | { readonly is: "gone" };

/** Where jobs are kept. Every adapter runs the same suite (store.test.ts). No call waits longer than LIMIT. */
export interface JobStore {
  /** Why a closed page loses everything, where it does. */
  readonly passing?: string;
  /** Newest change first. Every job is in it, whatever is wrong with its record. */
  list(): Promise<readonly JobEntry[]>;
  /** A new job. Opened even where the device refuses to keep it: then its state says so. */
  create(document: JobDocument, file?: JobEntry["file"]): Promise<KeptJob>;
  open(id: string): Promise<Opened>;
  /** Keeps a document that came from the shop, under the ID that it has there. */
  adopt(id: string, doc: Y.Doc): Promise<KeptJob>;
  delete(id: string): Promise<void>;
  /** Small things of this device: the job last open, steps done at a station. A refusal is not told: nothing is lost. */
  recall(key: string): Promise<Json | undefined>;
  remember(key: string, value: Json): Promise<void>;
}

/** One record as it was found: its value, which may be anything, or why the disk does not give it. */
export type Found = { readonly value: unknown } | { readonly why: string };

/** A job's record. */
export interface JobRecord {
  readonly entry: Found;
  /** In order. */
  readonly updates: readonly Found[];
  /** The keys of the updates, for `replace`. */
  readonly keys: readonly number[];
}

/** What an adapter does; each call is all or nothing, and rejects where it could not be done. */
export interface Disk {
  /** Why what it holds is gone with the page; a disk without it keeps what it confirmed. */
  readonly passing?: string;
  /** The jobs by their IDs, each entry as it was found. */
  jobs(): Promise<ReadonlyMap<string, Found>>;
  /** Undefined where the disk has nothing of that ID. */
  read(id: string): Promise<JobRecord | undefined>;
  /** Adds a job with its first update. */
  begin(entry: JobEntry, update: Uint8Array): Promise<void>;
  /** Adds an update and renews the entry; rejects with `JobGone` where the job was removed. */
  append(entry: JobEntry, update: Uint8Array): Promise<void>;
  /** Puts one update in place of those of the keys. */
  replace(id: string, keys: readonly number[], update: Uint8Array): Promise<void>;
  remove(id: string): Promise<void>;
  get(key: string): Promise<Json | undefined>;
  put(key: string, value: Json): Promise<void>;
  /** Lets go of a connection that does not answer; the next call makes a new one. */
  renew?(): void;
  /**
   * The number of the connection, none while there is none. Behind another one there may be another database: a
   * browser throws one away that it cannot read, and makes a new one.
   */
  connection?(): number | undefined;
}

/** The job was deleted by someone else, in another window of this device. */
export class JobGone extends Error {
  override readonly name = "JobGone";
}
