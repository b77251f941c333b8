import { type JobProblem, readJob } from "../../core/job/index.ts";
import { idFrom, type JobDocument, jobText } from "../document/index.ts";

/** A job file's document, or everything that keeps it from being one beside the text as it came. */
export type FileRead =
  | { readonly ok: true; readonly document: JobDocument }
  | { readonly ok: false; readonly problems: readonly JobProblem[]; readonly text: string };

/** Reads a job file's text, older versions brought up to the present one. Lengths stay as typed. */
export function readFile(text: string): FileRead {
  const read = readJob(text);
  return read.ok
    ? { ok: true, document: read.document as JobDocument }
    : { ok: false, problems: read.problems, text };
}

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

/** SHA-256 of a text, in hexadecimal. */
export async function digestOf(text: string): Promise<string> {
  const bytes = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return [...new Uint8Array(bytes)].map((b) => b.toString(16).padStart(2, "0")).join("");
}
