import { spawn } from "node:child_process";
import {
  closeSync,
  constants,
  existsSync,
  fstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { availableParallelism } from "node:os";
import { dirname, isAbsolute, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { utf8Problem } from "../core/job/index.ts";
import { FILES, problemLine, REASONS } from "../words/index.ts";
import { FolderTrouble, nodeDisk, Staged } from "./folder/index.ts";

/** What a command may touch outside itself. */
export interface Platform {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly read: (path: string) => Read;
  /** Writes whole files or none: all are written beside their places first, then moved there. */
  readonly write: (folder: string, files: readonly NamedBytes[]) => Wrote;
  /** A set of files for a folder that it takes the place of whole. Throws FolderTrouble where there can be none. */
  readonly folder: (path: string) => Staged;
  /** What to do and say when the user stops the program; gives how to take that back. */
  readonly onStop: (say: () => string) => () => void;
  /** Lets what waits (a key that stops the program) have its turn. */
  readonly breathe: () => Promise<void>;
  /** Milliseconds, from anywhere. */
  readonly now: () => number;
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

const reasonOf = (code: string): string => REASONS[code] ?? FILES.system(code);

const reason = (error: unknown): string => reasonOf((error as NodeJS.ErrnoException).code ?? "");

/** A regular file's text. Opened without waiting: a pipe that nobody writes to would hold the program for ever. */
function read(path: string): Read {
  let file: number | undefined;
  try {
    file = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const stat = fstatSync(file);
    if (stat.isDirectory()) return { ok: false, why: reasonOf("EISDIR") };
    if (!stat.isFile()) return { ok: false, why: reasonOf("ENXIO") };
    if (stat.size > LARGEST) return { ok: false, why: FILES.tooLarge(Math.round(stat.size / 1e6)) };
    const bytes = readFileSync(file);
    const coded = utf8Problem(bytes);
    // A byte order mark is no part of the text; the decoder takes it off.
    return coded
      ? { ok: false, why: problemLine(coded) }
      : { ok: true, text: new TextDecoder().decode(bytes) };
  } catch (error) {
    return { ok: false, why: reason(error) };
  } finally {
    if (file !== undefined) closeSync(file);
  }
}

const entryOf = (name: string): URL => new URL(`./${name}.mjs`, import.meta.url);

const isLiving = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
};

/** Which processes live, seen from one: it itself is no other. */
export const livesBeside =
  (self: number) =>
  (pid: number): boolean =>
    pid !== self && isLiving(pid);

/** The folder that a path means, links followed; never one that a shell stands in, which cannot be swapped. */
function folderOf(path: string): string {
  const wanted = resolve(path);
  let real = wanted;
  try {
    real = realpathSync(wanted);
  } catch (error) {
    if (nodeDisk.kind(wanted) === "other") throw new FolderTrouble(FILES.brokenLink(reason(error)));
  }
  const down = relative(real, process.cwd());
  if (!down.startsWith("..") && !isAbsolute(down)) throw new FolderTrouble(FILES.here);
  return real;
}

/** Beside the program where it is built: put right what a kill between two renames leaves. */
function guardOf(folder: string): () => void {
  // Debuggers and preloads of this process are not for the other.
  const { NODE_OPTIONS: _, ...env } = process.env;
  const script = fileURLToPath(entryOf("cards-guard"));
  const child = spawn(process.execPath, [script, folder, String(process.pid)], {
    stdio: ["pipe", "inherit", "inherit"],
    detached: true,
    windowsHide: true,
    env,
  });
  // Without one the next run puts it right.
  child.on("error", () => {});
  child.stdin.on("error", () => {});
  child.unref();
  return () => child.stdin.end("done");
}

const SIGNALS = { SIGINT: 2, SIGTERM: 15, SIGHUP: 1 } as const;

export const node: Platform = {
  folder: (path) =>
    new Staged(folderOf(path), {
      disk: nodeDisk,
      pid: process.pid,
      lives: livesBeside(process.pid),
      reason,
      ...(existsSync(entryOf("cards-guard")) ? { guard: guardOf } : {}),
    }),
  onStop: (say) => {
    const stop = (signal: keyof typeof SIGNALS): void => {
      process.stderr.write(`${say()}\n`);
      process.exit(128 + SIGNALS[signal]);
    };
    const names = Object.keys(SIGNALS) as (keyof typeof SIGNALS)[];
    for (const name of names) process.on(name, stop);
    return () => {
      for (const name of names) process.off(name, stop);
    };
  },
  breathe: () => new Promise((done) => setImmediate(done)),
  now: () => performance.now(),
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
  read,
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
