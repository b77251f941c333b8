import type { Json } from "../../shared/index.ts";

/** A change of a job, to be stored. */
export interface Change {
  readonly job: string;
  /** ID of the device that made it. */
  readonly device: string;
  /** When the shop had it, milliseconds since 1970. */
  readonly at: number;
  /** The last `seq` of the job that its maker had had, 0 for none. */
  readonly seen: number;
  /** A Yjs update (version 1). */
  readonly update: Uint8Array;
}

/** A stored change. `seq` grows within a job, with gaps. */
export interface Stored extends Change {
  readonly seq: number;
}

/** All changes of a job up to `seq`, the last of them made at `at`, as one update. */
export interface Base {
  readonly seq: number;
  readonly at: number;
  readonly update: Uint8Array;
}

/** A job as it is read back: `base` holds all changes up to its `seq`; `log` those behind it, in order. */
export interface Kept {
  readonly base?: Base;
  readonly log: readonly Stored[];
}

/** Kinds of small records beside the logs: each is plain JSON under an ID. */
export const KINDS = ["job", "device", "state", "code", "secret", "photograph"] as const;
export type Kind = (typeof KINDS)[number];
export type { Json };

/** What another server process did, where several share a store. */
export interface Watch {
  readonly appended: (job: string, seqs: readonly number[]) => void;
  readonly changed: (kind: Kind, id: string) => void;
  /** The connection that tells of others was lost, or is back: whatever is in memory may be behind. */
  readonly lost: () => void;
  readonly back: () => void;
}

/** Why a store did not take something; nothing of it is stored. */
export class NotStored extends Error {
  override readonly name = "NotStored";
  readonly why: "full" | "unreachable" | "other";
  constructor(why: NotStored["why"], cause?: unknown) {
    super(why, { cause });
    this.why = why;
  }
}

/** Another process has the store. */
export class InUse extends Error {
  override readonly name = "InUse";
}

/** What is there cannot be opened: a newer program made it, it is no store of a shop, or nobody answers. */
export class NotOpened extends Error {
  override readonly name = "NotOpened";
  readonly why: "newer" | "damaged" | "full" | "unreachable" | "other";
  constructor(why: NotOpened["why"], cause?: unknown) {
    super(why, { cause });
    this.why = why;
  }
}

/**
 * Where a shop keeps its jobs. Two adapters, one suite (store-suite.ts). Every call that writes is one transaction: all of it is
 * there when it resolves, on the disk, and nothing of it when it rejects (`NotStored`); only where the way to the store
 * breaks before its answer is here (`unreachable`) may it be there all the same. What reads rejects with `NotStored`
 * too where it cannot. Calls of one process that concern the same job, kind of record or blob are done in the order in
 * which they were made. After a rejection the store goes on: what failed for want of room works when there is room.
 *
 * IDs are 1 to 500 characters without NUL or half a surrogate pair; other ones are refused as `other`.
 */
export interface ShopStore {
  /** Adds all changes, or none, and answers with their `seq` in the same order. */
  append(changes: readonly Change[]): Promise<readonly number[]>;
  /** A job; undefined where nothing of that ID was ever appended, or it was purged. */
  read(job: string): Promise<Kept | undefined>;
  /** Changes of these numbers, in order. One that is lacking was made one with others by `compact`: read the job anew. */
  fetch(job: string, seqs: readonly number[]): Promise<readonly Stored[]>;
  /** The job's changes behind `after`, also those that the base holds, in order, `limit` at most. */
  history(job: string, after: number, limit: number): Promise<readonly Stored[]>;
  /** How many changes a job has behind its base, and in all. */
  counts(job: string): Promise<{ readonly log: number; readonly all: number }>;
  /**
   * Puts `base` in, and `by` in place of the changes behind `was` up to `base.seq`: the same changes, those of one
   * device and quarter of an hour made one. All others stay. `was`: the `seq` of the base that this one was made from,
   * 0 for none; where the base is another by now (or the job is purged) nothing is done. Says whether it was done.
   */
  compact(job: string, was: number, base: Base, by: readonly Stored[]): Promise<boolean>;
  /** Removes a job's changes for good. */
  purge(job: string): Promise<void>;

  get(kind: Kind, id: string): Promise<Json | undefined>;
  all(kind: Kind): Promise<ReadonlyMap<string, Json>>;
  put(kind: Kind, id: string, value: Json): Promise<void>;
  /** Puts it only where `was` (plain JSON, compared by text) is what is there; says whether it did. */
  swap(kind: Kind, id: string, was: Json | undefined, value: Json | undefined): Promise<boolean>;
  remove(kind: Kind, id: string): Promise<void>;

  /** Photographs and scans by their SHA-256 in hex; the same one twice is stored once. */
  putBlob(digest: string, bytes: Uint8Array): Promise<void>;
  blob(digest: string): Promise<Uint8Array | undefined>;

  /** Tells what other processes do to this store; nothing where the store is this process's alone. */
  watch(watch: Watch): void;
  close(): Promise<void>;
}
