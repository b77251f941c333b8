import { type JobProblem, readAnyVersion, utf8Problem } from "../../../core/job/index.ts";
import { idFrom, type JobDocument, jobText } from "../document/index.ts";

interface Unread {
  readonly ok: false;
  readonly problems: readonly JobProblem[];
  readonly text: string;
}

/** A job file's document, or everything that keeps it from being one beside the text as it came. */
export type FileRead =
  | { readonly ok: true; readonly document: JobDocument }
  | (Unread & { readonly newer?: undefined })
  /** As a newer Tubewright wrote it, to be looked at and kept as it is; with what this one does not know. */
  | (Unread & { readonly newer: JobDocument });

/** Reads a job file, older versions brought up to the present one. Lengths stay as typed. */
export function readFile(file: string | Uint8Array): FileRead {
  const text = typeof file === "string" ? file : new TextDecoder().decode(file);
  const coded = typeof file === "string" ? undefined : utf8Problem(file);
  if (coded) return { ok: false, problems: [coded], text };
  const read = readAnyVersion(text);
  if (read.newer) {
    const problems = read.ok ? [] : read.problems;
    return { ok: false, problems, text, newer: read.newer.document as JobDocument };
  }
  return read.ok
    ? { ok: true, document: read.document as JobDocument }
    : { ok: false, problems: read.problems, text };
}

/** The bytes of a file that was chosen or let fall on the page. */
export const bytesOf = async (file: Blob): Promise<Uint8Array> => new Uint8Array(await file.arrayBuffer());

/** "Trial frame" → trial-frame.json */
export const fileName = (document: JobDocument): string =>
  `${idFrom(typeof document.name === "string" && document.name.trim() !== "" ? document.name : "job")}.json`;

/** Hands a job to the browser as a file to save. */
export function saveFile(document: JobDocument): void {
  saveText(fileName(document), jobText(document));
}

/** Hands a text to the browser as a file to save. */
export function saveText(name: string, text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const link = window.document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** SHA-256 of a file, in hexadecimal. */
export async function digestOf(file: string | Uint8Array): Promise<string> {
  const content = typeof file === "string" ? new TextEncoder().encode(file) : new Uint8Array(file);
  const bytes = await crypto.subtle.digest("SHA-256", content);
  return [...new Uint8Array(bytes)].map((b) => b.toString(16).padStart(2, "0")).join("");
}
