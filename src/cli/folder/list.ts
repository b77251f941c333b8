import { createHash } from "node:crypto";
import { join } from "node:path";
import type { Disk } from "./disk.ts";

/** What a run made (JSON), in the folder: a later run takes away what it knows to be its own, and nothing else. */
export const LIST = "files-made.list";
const FORMAT = "tubewright files made";

export interface Entry {
  readonly sha256: string;
  /** What it is of; absent: the whole job. */
  readonly bar?: string;
  /** The state of the job that it was figured from. */
  readonly revision?: string;
}

export type Entries = ReadonlyMap<string, Entry>;

export const digestOf = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

export const listBytes = (entries: Entries): Uint8Array => {
  const files = Object.fromEntries([...entries].sort(([a], [b]) => (a < b ? -1 : 1)));
  return new TextEncoder().encode(`${JSON.stringify({ format: FORMAT, version: 1, files }, null, 1)}\n`);
};

/** The list of a folder; empty where there is none that can be read, so that every file there is someone else's. */
export function listIn(disk: Disk, folder: string): Entries {
  try {
    if (disk.kind(join(folder, LIST)) !== "file") return new Map();
    const read: unknown = JSON.parse(new TextDecoder().decode(disk.read(join(folder, LIST))));
    const { format, files } = read as { format?: unknown; files?: Record<string, Entry> };
    if (format !== FORMAT || typeof files !== "object") return new Map();
    return new Map(Object.entries(files).filter(([, entry]) => typeof entry?.sha256 === "string"));
  } catch (error) {
    if (error instanceof SyntaxError || error instanceof TypeError) return new Map();
    throw error;
  }
}

/** Whether a file is to the byte what the list says was made. */
export const isAsMade = (disk: Disk, file: string, entry: Entry | undefined): boolean =>
  entry !== undefined && disk.kind(file) === "file" && digestOf(disk.read(file)) === entry.sha256;
