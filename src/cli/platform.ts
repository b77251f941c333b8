import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { dirname, join } from "node:path";

/** What a command may touch outside itself. */
export interface Platform {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly read: (path: string) => Read;
  /** Writes whole files or none: all are written beside their places first, then moved there. */
  readonly write: (folder: string, files: readonly NamedBytes[]) => Wrote;
  /** Someone watches standard error. */
  readonly watched?: boolean;
  /** Threads for long work, where the program is built: how many at once, and what one of them runs. */
  readonly threads?: { readonly count: number; readonly entry: (name: string) => URL };
}

export interface NamedBytes {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export type Read =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly why: string };
export type Wrote = { readonly ok: true } | { readonly ok: false; readonly why: string };

/** A job is text that a person could have typed; past this it is some other file. */
const LARGEST = 64 * 1024 * 1024;

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file",
  EISDIR: "that is a folder; name the job file in it",
  EACCES: "this user may not open it",
  EPERM: "this user may not do that there",
  ENOTDIR: "a part of that path is a file, not a folder",
  EEXIST: "a file of that name is in the way; name a folder",
  EROFS: "that disk cannot be written to",
  ENOSPC: "the disk is full",
};

function reason(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code ?? "";
  return REASONS[code] ?? `the system says ${code || "no"}`;
}

const entryOf = (name: string): URL => new URL(`./${name}.mjs`, import.meta.url);

export const node: Platform = {
  watched: process.stderr.isTTY === true,
  // Threads are started from what is built beside the program; run from source there are none.
  ...(existsSync(entryOf("fit-worker"))
    ? { threads: { count: availableParallelism(), entry: entryOf } }
    : {}),
  out: (text) => {
    process.stdout.write(text);
  },
  err: (text) => {
    process.stderr.write(text);
  },
  read: (path) => {
    try {
      const size = statSync(path).size;
      if (size > LARGEST) return { ok: false, why: `${Math.round(size / 1e6)} MB is no job file` };
      // A byte order mark is no part of the text.
      return { ok: true, text: readFileSync(path, "utf8").replace(/^\uFEFF/, "") };
    } catch (error) {
      return { ok: false, why: reason(error) };
    }
  },
  write: (folder, files) => {
    const made: string[] = [];
    const temporary = (name: string): string => join(folder, `${name}.part`);
    try {
      mkdirSync(folder, { recursive: true });
      for (const { name, bytes } of files) {
        mkdirSync(dirname(join(folder, name)), { recursive: true });
        made.push(temporary(name));
        writeFileSync(temporary(name), bytes);
      }
      for (const { name } of files) renameSync(temporary(name), join(folder, name));
      return { ok: true };
    } catch (error) {
      for (const path of made) rmSync(path, { force: true });
      return { ok: false, why: reason(error) };
    }
  },
};
