import { createHash } from "node:crypto";
import { type Base, NotStored, type Stored } from "./port.ts";

const LONGEST_ID = 500;

/** SQLite cuts a text at NUL, PostgreSQL refuses it, and two halves of pairs become the same letter in either. */
export function checkId(...ids: readonly string[]): void {
  for (const id of ids)
    if (id.length === 0 || id.length > LONGEST_ID || /\0|\p{Surrogate}/u.test(id))
      throw new NotStored("other", new Error(`no ID: ${JSON.stringify(id.slice(0, 50))}`));
}

/** A digest names a file: nothing but hex, and that of these bytes. */
export function checkDigest(digest: string, bytes?: Uint8Array): void {
  if (!/^[0-9a-f]{64}$/.test(digest)) throw new NotStored("other", new Error("no SHA-256 in hex"));
  if (bytes && createHash("sha256").update(bytes).digest("hex") !== digest)
    throw new NotStored("other", new Error("bytes of another digest"));
}

/** What stands for the changes behind `was` up to the base is of their job and has their numbers. */
export function checkCompaction(job: string, was: number, base: Base, by: readonly Stored[]): void {
  checkId(job, ...by.map((change) => change.device));
  const wrong = by.find((c) => c.job !== job || c.seq <= was || c.seq > base.seq);
  if (wrong || by.at(-1)?.seq !== base.seq)
    throw new NotStored("other", new Error(`not the changes behind ${was} up to ${base.seq}`));
}
