import { randomUUID } from "node:crypto";
import { mkdir, open, readdir, readFile, rename, rm, stat } from "node:fs/promises";
import { join } from "node:path";

const PART = ".part";

/**
 * Photographs as files of a folder, named by their digest: 20 MB each would fill the database's log, make each copy
 * of the database as large as all pictures, and keep every job waiting while one is written. Written beside, synced,
 * renamed and the folder synced, so that a name that is there has all of its bytes.
 */
export class Blobs {
  private readonly folder: string;

  constructor(folder: string) {
    this.folder = folder;
  }

  /** Makes the folder and clears away what a killed process had not finished. */
  async open(): Promise<void> {
    await mkdir(this.folder, { recursive: true, mode: 0o700 });
    const left = (await readdir(this.folder)).filter((name) => name.endsWith(PART));
    await Promise.all(left.map((name) => rm(join(this.folder, name), { force: true })));
  }

  async put(digest: string, bytes: Uint8Array): Promise<void> {
    const path = join(this.folder, digest);
    // the length tells a file that a broken disk cut short
    if ((await stat(path).catch(() => undefined))?.size === bytes.length) return;
    const part = `${path}.${randomUUID()}${PART}`;
    try {
      await writeSynced(part, bytes);
      await rename(part, path);
      await syncFolder(this.folder);
    } catch (error) {
      await rm(part, { force: true });
      throw error;
    }
  }

  async get(digest: string): Promise<Uint8Array | undefined> {
    try {
      return new Uint8Array(await readFile(join(this.folder, digest)));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === "ENOENT") return undefined;
      throw error;
    }
  }
}

async function writeSynced(path: string, bytes: Uint8Array): Promise<void> {
  const file = await open(path, "wx", 0o600);
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Makes a new name durable; Windows has no such call and needs none. */
async function syncFolder(path: string): Promise<void> {
  if (process.platform === "win32") return;
  const folder = await open(path, "r");
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}
