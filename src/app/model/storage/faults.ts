import type { StorageFault } from "../../../words/index.ts";
import { NoAnswer } from "./limit.ts";

/** Every way in which browsers say that there is no room: their names differ, and one has none but a sentence. */
const FULL = /quota|no.?space|disk.{0,20}full|full.{0,5}disk|file_no_device_space/i;

const nameOf = (error: unknown): string =>
  error instanceof Error || error instanceof DOMException ? error.name : "";

export const isFull = (error: unknown): boolean =>
  (error instanceof Error || error instanceof DOMException) && FULL.test(`${error.name} ${error.message}`);

/**
 * Of two refusals behind each other the one that says more: after a disk was full, Chromium says no more than that its
 * database cannot be opened (seen with Chromium 156 on a full disk).
 */
export const clearerOf = (before: unknown, now: unknown): unknown =>
  isFull(before) && nameOf(now) === "UnknownError" ? before : now;

/** What a browser's error comes to; the words for it are in src/words/storage.ts. */
export function faultOf(error: unknown): StorageFault {
  if (isFull(error)) return { is: "full" };
  if (error instanceof NoAnswer) return { is: "no answer", seconds: error.seconds };
  const name = nameOf(error);
  if (name === "JobGone") return { is: "gone" };
  if (name === "VersionError") return { is: "newer" };
  if (name === "NoDatabase") return { is: "no database" };
  return name === "UnknownError" ? { is: "unknown" } : { is: "other", name };
}

/** The browser has no database for this page. */
export class NoDatabase extends Error {
  override readonly name = "NoDatabase";
}
