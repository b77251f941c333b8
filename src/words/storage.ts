import { counted } from "./text.ts";

/** What can keep a job from being saved on, or read from, this device: a closed list. */
export type StorageFault =
  | { readonly is: "full" }
  /** The job was deleted in another window. */
  | { readonly is: "gone" }
  /** A newer version of the program has the jobs. */
  | { readonly is: "newer" }
  | { readonly is: "no answer"; readonly seconds: number }
  | { readonly is: "no database" }
  /** All that a browser says of a disk that may be full. */
  | { readonly is: "unknown" }
  /** Anything else, by the name that the browser gives it. */
  | { readonly is: "other"; readonly name: string };

const SAVE = "Save the job to a file.";
const named = (fault: StorageFault): string =>
  fault.is === "other" && fault.name !== ""
    ? ` (${fault.name})`
    : fault.is === "unknown"
      ? " (UnknownError)"
      : "";

/** Why the last changes are not on the device, and what to do. */
export function notSaved(fault: StorageFault): string {
  if (fault.is === "full")
    return `${SAVE} The storage of this device is full: the last changes are not saved.`;
  if (fault.is === "gone") return `${SAVE} It was deleted in another window: changes are not saved.`;
  if (fault.is === "newer")
    return `${SAVE} Then reload the page. A newer version of Tubewright opened the jobs in another window: changes here are not saved.`;
  if (fault.is === "no answer")
    return `${SAVE} This device has not confirmed the last changes for ${counted(fault.seconds, "second")}: closing the page may lose them.`;
  return `${SAVE} This device refuses to save it${named(fault)}: closing the page loses it.`;
}

/** Why the database cannot be opened, so that nothing is saved; the jobs in it stay as they are. */
export const nothingSaved = (fault: StorageFault): string =>
  `Save your work to a file: nothing is saved on this device now. ${closed(fault)}`;

function closed(fault: StorageFault): string {
  switch (fault.is) {
    case "full":
      return "Make room, then try again: the disk of this device is full.";
    case "newer":
      return "Reload the page to get the newer version: it wrote the jobs here, and this one cannot read them. The jobs stay as they are.";
    case "no answer":
      return `Close the other windows of Tubewright, then try again: the browser's database did not open within ${counted(fault.seconds, "second")}. The jobs stay as they are.`;
    case "no database":
      return "Use a normal window: this browser gives the page no database, as private windows may.";
    case "unknown":
      return "Make room on the disk, then start the browser again: its database cannot be opened (UnknownError).";
    default:
      return `Try again, or start the browser again: its database cannot be opened${named(fault)}.`;
  }
}

/** Why the list of jobs, or a job, could not be read from an open database. */
export function notRead(fault: StorageFault): string {
  if (fault.is === "no answer")
    return `the browser's database did not answer within ${counted(fault.seconds, "second")}`;
  if (fault.is === "full") return "the disk of this device is full";
  if (fault.is === "newer") return "a newer version of Tubewright has the jobs open";
  return `the browser's database cannot read it${named(fault)}`;
}

/** What is said of jobs that could not be listed, opened or deleted. */
export const STORED = {
  gone: "Open another job: this one is no longer on this device.",
  notOpened: (fault: StorageFault) => `Try again later. The job was not opened: ${notRead(fault)}.`,
  notDeleted: (fault: StorageFault) => `Try again later. The job was not deleted: ${notRead(fault)}.`,
  notListed: (fault: StorageFault) => `Try again later. The list of jobs is not complete: ${notRead(fault)}.`,
  noDemo: "Reload the page to get the demo car: it did not come from the server.",
  noJob: "open a job first",
  passing: "Save the job to a file: closing the page loses it, nothing is saved on this device.",
  recovered: (name: string) => `${name} (recovered)`.trim(),
} as const;

/** What is wrong with the record of a damaged job. */
export const RECORD = {
  change: (n: number, count: number, why: string) =>
    `Change ${n} of ${count} in its record cannot be read: ${why}.`,
  onlyName: "Its record has a name and nothing else.",
  notListed: "its entry in the list is missing",
  missing: "Some changes cannot be put in place: one that they build on is missing.",
  nothing: "Nothing of the job can be read.",
  noJob: "What the record holds is not a job.",
  notBytes: "it is not stored as bytes",
  badBytes: "its bytes are damaged",
  unreadable: (name: string | undefined) => `the browser cannot read it (${name ?? "no reason given"})`,
} as const;
