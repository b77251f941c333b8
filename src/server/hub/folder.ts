import { watch } from "node:fs";
import { mkdir, open, readdir, readFile, rename, rm, stat } from "node:fs/promises";
import { extname, join } from "node:path";

/** What the shop does in its folder of job files. */
export interface Folder {
  /** Job files by name, with what changes when one is written (time and size). */
  names(): Promise<ReadonlyMap<string, string>>;
  /** Undefined where there is none. */
  read(name: string): Promise<Uint8Array | undefined>;
  /** Whole or not at all. */
  write(name: string, text: string): Promise<void>;
  /** Out of the way, not lost. */
  putAway(name: string): Promise<void>;
  /** What the shop notes of its files, beside them. */
  readNotes(): Promise<string | undefined>;
  writeNotes(text: string): Promise<void>;
  /** Calls when something may have changed; returns how to stop. */
  watch(look: () => void): () => void;
}

const OURS = ".tubewright";
const NOTES = "files.json";
/** Where a system tells nothing (network folders), one looks this often (ms). */
const LOOK = 3000;

export function folderOf(path: string): Folder {
  const own = join(path, OURS);

  async function whole(file: string, text: string): Promise<void> {
    const beside = `${file}.${process.pid}.part`;
    const handle = await open(beside, "w");
    try {
      await handle.writeFile(text);
      await handle.sync();
    } catch (error) {
      await handle.close();
      await rm(beside, { force: true });
      throw error;
    }
    await handle.close();
    await rename(beside, file);
  }

  return {
    async names() {
      const listed = await readdir(path, { withFileTypes: true });
      const files = listed.filter((e) => e.isFile() && extname(e.name) === ".json").map((e) => e.name);
      const found = await Promise.all(
        files.sort().map(async (name) => [name, await signOf(join(path, name))] as const),
      );
      return new Map(found.filter((one): one is [string, string] => one[1] !== undefined));
    },
    read: (name) => orNothing(readFile(join(path, name))),
    write: (name, text) => whole(join(path, name), text),
    async putAway(name) {
      const away = join(own, "deleted");
      await mkdir(away, { recursive: true });
      await rename(join(path, name), join(away, name)).catch((error: NodeJS.ErrnoException) => {
        if (error.code !== "ENOENT") throw error;
      });
    },
    readNotes: async () => (await orNothing(readFile(join(own, NOTES))))?.toString("utf8"),
    async writeNotes(text) {
      await mkdir(own, { recursive: true });
      await whole(join(own, NOTES), text);
    },
    watch(look) {
      const timer = setInterval(look, LOOK);
      timer.unref();
      try {
        const watcher = watch(path, look);
        // where the system gives up telling, one goes on looking
        watcher.on("error", () => watcher.close());
        return () => {
          clearInterval(timer);
          watcher.close();
        };
      } catch {
        return () => clearInterval(timer);
      }
    },
  };
}

async function signOf(file: string): Promise<string | undefined> {
  const found = await orNothing(stat(file));
  return found && `${found.mtimeMs} ${found.size} ${found.ino}`;
}

async function orNothing<T>(what: Promise<T>): Promise<T | undefined> {
  try {
    return await what;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return undefined;
    throw error;
  }
}
