import { readdir, readFile, stat } from "node:fs/promises";
import { extname, join } from "node:path";
import { FILES, UNREAD } from "../words/index.ts";

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".ttf": "font/ttf",
  ".wasm": "application/wasm",
};

export const typeOf = (name: string): string => TYPES[extname(name)] ?? "application/octet-stream";

/** Why a file could not be read, as a clause. */
export function whyUnread(error: unknown): string {
  const { code = "no code" } = error as NodeJS.ErrnoException;
  return UNREAD[code] ?? FILES.system(code);
}

/**
 * A file of a folder by its path there, parts joined by "/". Only what the folder lists is found, so no path leads
 * out of it; links are not followed.
 */
export async function fileIn(folder: string, path: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
  const parts = path.split("/");
  let here = folder;
  for (const [i, part] of parts.entries()) {
    const listed = await readdir(here, { withFileTypes: true }).catch(() => []);
    const entry = listed.find((e) => e.name === part);
    const fits = i === parts.length - 1 ? entry?.isFile() : entry?.isDirectory();
    if (!fits) return undefined;
    here = join(here, part);
  }
  return new Uint8Array(await readFile(here));
}

/** A job file of the folder itself. */
export const jobFileIn = async (folder: string, name: string) =>
  extname(name) === ".json" && !name.includes("/") ? fileIn(folder, name) : undefined;

/** A file that may be a job. */
export interface FileEntry {
  readonly name: string;
  /** Milliseconds since 1970. */
  readonly changed: number;
}

/** The JSON files of a folder, by name. */
export async function jobFiles(folder: string): Promise<readonly FileEntry[]> {
  const listed = await readdir(folder, { withFileTypes: true });
  const names = listed.filter((e) => e.isFile() && extname(e.name) === ".json").map((e) => e.name);
  const entries = names
    .sort()
    .map(async (name) => ({ name, changed: (await stat(join(folder, name))).mtimeMs }));
  return Promise.all(entries);
}
