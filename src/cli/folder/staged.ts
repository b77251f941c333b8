import { dirname, join } from "node:path";
import { FILES, FOLDER } from "../../words/index.ts";
import type { Disk } from "./disk.ts";
import { digestOf, type Entry, isAsMade, LIST, listBytes, listIn } from "./list.ts";
import { finish, makeFolders, makingOf, removeTree, replacedOf, type Settled, settle } from "./settle.ts";

/** What a folder's set could not be made for, as a clause for people. */
export class FolderTrouble extends Error {}

/** What a file of the set is of. */
export type Of = Omit<Entry, "sha256">;

export interface Around {
  readonly disk: Disk;
  readonly pid: number;
  readonly lives: (pid: number) => boolean;
  /** The system's error in words. */
  readonly reason: (error: unknown) => string;
  /** Someone who settles the folder if this process is killed; gives how to let them go. */
  readonly guard?: (folder: string) => () => void;
}

/**
 * A set of files being made for a folder: written beside it, and put in its place whole by `commit`. Until then
 * nothing in the folder changes; whoever is killed leaves the old set or the new one.
 */
export class Staged {
  private readonly making: string;
  private readonly entries = new Map<string, Entry>();
  private readonly parents: string[] = [];
  private isBegun = false;

  /** `folder`: an absolute path whose last part is no link. */
  constructor(
    private readonly folder: string,
    private readonly around: Around,
  ) {
    this.making = makingOf(folder, around.pid);
    const { disk, lives } = around;
    this.orTakeBack(() => {
      const wanted: string[] = [];
      for (let up = dirname(folder); disk.kind(up) === undefined; up = dirname(up)) wanted.unshift(up);
      for (const path of wanted) {
        disk.makeFolder(path);
        this.parents.push(path);
      }
      const { others } = settle(disk, folder, lives);
      if (others.length > 0) throw new FolderTrouble(FILES.busy(others));
      const kind = disk.kind(folder);
      if (kind !== undefined && kind !== "folder") throw new FolderTrouble(FILES.notFolder);
      disk.makeFolder(this.making);
      this.isBegun = true;
    });
  }

  put(name: string, bytes: Uint8Array, of: Of = {}): void {
    const { disk } = this.around;
    this.orTakeBack(() => {
      makeFolders(disk, this.making, dirname(name));
      disk.write(join(this.making, name), bytes);
      this.entries.set(name, { sha256: digestOf(bytes), ...of });
    });
  }

  /** Takes over, unchanged, what a former run made and this one did not, as far as `stays` says; gives what stays. */
  carry(stays: (name: string, entry: Entry) => boolean): ReadonlyMap<string, Entry> {
    const { disk } = this.around;
    const carried = new Map<string, Entry>();
    this.orTakeBack(() => {
      for (const [name, entry] of listIn(disk, this.folder)) {
        const from = join(this.folder, name);
        if (this.entries.has(name) || !stays(name, entry) || !isAsMade(disk, from, entry)) continue;
        this.put(name, disk.read(from), { ...entry });
        carried.set(name, entry);
      }
    });
    return carried;
  }

  commit(): Settled {
    const { disk, pid, guard, reason } = this.around;
    const old = replacedOf(this.folder, pid);
    this.orTakeBack(() => disk.write(join(this.making, LIST), listBytes(this.entries)));
    if (disk.kind(this.folder) === undefined) {
      this.orTakeBack(() => disk.move(this.making, this.folder));
      return { left: [], gone: [] };
    }
    const letGo = guard?.(this.folder);
    try {
      this.orTakeBack(() => {
        disk.move(this.folder, old);
        try {
          disk.move(this.making, this.folder);
        } catch (error) {
          disk.move(old, this.folder);
          throw error;
        }
      });
      return finish(disk, old, this.folder);
    } catch (error) {
      if (error instanceof FolderTrouble) throw error;
      throw new FolderTrouble(FOLDER.still(old, reason(error)));
    } finally {
      letGo?.();
    }
  }

  /** Takes back all that was written; the clause says so, or what is left where. */
  abandon(): string {
    const { disk, reason } = this.around;
    try {
      if (this.isBegun && disk.kind(this.making) !== undefined) removeTree(disk, this.making);
      for (const path of [...this.parents].reverse())
        if (disk.names(path).length === 0) disk.removeFolder(path);
      return FOLDER.unchanged;
    } catch (error) {
      return FOLDER.unfinished(this.making, reason(error));
    }
  }

  private orTakeBack(step: () => void): void {
    try {
      step();
    } catch (error) {
      // a step within a step has told already
      if (error instanceof Told) throw error;
      const why = error instanceof FolderTrouble ? error.message : this.around.reason(error);
      throw new Told(FOLDER.takenBack(why, this.abandon()));
    }
  }
}

class Told extends FolderTrouble {}
