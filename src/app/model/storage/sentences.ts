import { NoAnswer } from "./limit.ts";

/** Every way in which browsers say that there is no room: their names differ, and one has none but a sentence. */
const FULL = /quota|no.?space|disk.{0,20}full|full.{0,5}disk|file_no_device_space/i;

const SAVE = "Save the job to a file.";

const nameOf = (error: unknown): string =>
  error instanceof Error || error instanceof DOMException ? error.name : "";

export const isFull = (error: unknown): boolean =>
  (error instanceof Error || error instanceof DOMException) && FULL.test(`${error.name} ${error.message}`);

/**
 * Of two refusals behind each other the one that says more: after a disk was full, Chromium says no more than that its
 * database cannot be opened (seen with Chromium 156 on a full disk).
 */
export const tellingOf = (before: unknown, now: unknown): unknown =>
  isFull(before) && nameOf(now) === "UnknownError" ? before : now;

/** Why the last changes are not on the device, and what to do. */
export function refusalOf(error: unknown): string {
  if (isFull(error)) return `This device's storage is full: the last changes are not kept. ${SAVE}`;
  const name = nameOf(error);
  if (name === "JobGone") return `This job was deleted in another window: changes are not kept. ${SAVE}`;
  if (name === "VersionError")
    return `A newer version of Tubewright opened the jobs in another window: changes here are not kept. ${SAVE} Then reload the page.`;
  if (error instanceof NoAnswer)
    return `This device has not confirmed the last changes for ${error.seconds} seconds: a closed page may lose them. ${SAVE}`;
  const reason = name === "" ? "" : ` (${name})`;
  return `This device refuses to keep the job${reason}: a closed page loses it. ${SAVE}`;
}

/** Why the database cannot be opened, so that nothing is kept; the jobs in it stay as they are. */
export function passingBecause(error: unknown): string {
  return `Save your work to a file: nothing is kept on this device now. ${closedBecause(error)}`;
}

function closedBecause(error: unknown): string {
  if (isFull(error))
    return "The disk of this device is full, and the browser cannot open its database. Make room, then try again.";
  const name = nameOf(error);
  if (name === "VersionError")
    return "A newer version of Tubewright wrote the jobs here, and this one cannot read them. Reload the page to get the newer version. The jobs stay as they are.";
  if (error instanceof NoAnswer)
    return `The browser's database did not open within ${error.seconds} seconds. Close the other windows of Tubewright, then try again. The jobs stay as they are.`;
  if (name === "NoDatabase")
    return "This browser gives the page no database; a private window may be the reason.";
  // all that Chromium says on a full disk
  if (name === "UnknownError")
    return "The browser's database cannot be opened (UnknownError). The disk may be full: make room, then start the browser again.";
  const reason = name === "" ? "" : ` (${name})`;
  return `The browser's database cannot be opened${reason}. Try again, or start the browser again.`;
}

/** Why the list of jobs, or a job, could not be had from an open database. */
export function unreadBecause(error: unknown): string {
  if (error instanceof NoAnswer)
    return `the browser's database did not answer within ${error.seconds} seconds`;
  if (isFull(error)) return "the disk of this device is full";
  if (nameOf(error) === "VersionError") return "a newer version of Tubewright has the jobs open";
  const name = nameOf(error);
  return `the browser's database cannot read it${name === "" ? "" : ` (${name})`}`;
}

/** The browser has no database for this page. */
export class NoDatabase extends Error {
  override readonly name = "NoDatabase";
}
