import { basename, dirname, join } from "node:path";
import type { Disk } from "./disk.ts";
import { isAsMade, LIST, listIn } from "./list.ts";

/**
 * A set of files takes the place of another by two renames: FOLDER → .FOLDER.replaced-PID, .FOLDER.making-PID →
 * FOLDER. There is no portable rename that exchanges two folders, so between the two the name is free; `settle` puts
 * that right after a run that was killed there, and goes on with what it left undone.
 */
const making = (folder: string): string => `.${basename(folder)}.making-`;
const replaced = (folder: string): string => `.${basename(folder)}.replaced-`;

export const makingOf = (folder: string, pid: number): string =>
  join(dirname(folder), `${making(folder)}${pid}`);
export const replacedOf = (folder: string, pid: number): string =>
  join(dirname(folder), `${replaced(folder)}${pid}`);

/** A file that was in the folder and that no run made, or that someone changed since. */
export interface Left {
  readonly name: string;
  /** Its name now: the same, but where this run made a file of that name. */
  readonly as: string;
  readonly changed: boolean;
}

export interface Settled {
  readonly left: readonly Left[];
  /** What a former run made and this one does not. */
  readonly gone: readonly string[];
}

/** Finishes or takes back what runs that no longer live left beside a folder; gives the runs that live. */
export function settle(
  disk: Disk,
  folder: string,
  lives: (pid: number) => boolean,
): { readonly others: readonly string[] } {
  const parent = dirname(folder);
  if (disk.kind(parent) !== "folder") return { others: [] };
  const names = disk.names(parent);
  const of = (prefix: string): readonly [string, number][] =>
    names
      .filter((name) => name.startsWith(prefix) && /^\d+$/.test(name.slice(prefix.length)))
      .map((name) => [join(parent, name), Number(name.slice(prefix.length))]);
  const others: string[] = [];
  for (const [path, pid] of of(replaced(folder))) {
    if (lives(pid)) others.push(path);
    else if (disk.kind(folder) === undefined) disk.move(path, folder);
    else finish(disk, path, folder);
  }
  for (const [path, pid] of of(making(folder))) {
    if (lives(pid)) others.push(path);
    else removeTree(disk, path);
  }
  return { others };
}

/** Empties the folder that was replaced: what a run made goes, all else moves into the new one. Can be begun again. */
export function finish(disk: Disk, old: string, folder: string): Settled {
  const made = listIn(disk, old);
  const now = listIn(disk, folder);
  const left: Left[] = [];
  const gone: string[] = [];
  const hasOurs = (path: string): boolean => [...made.keys()].some((name) => name.startsWith(`${path}/`));
  const walk = (inside: string): void => {
    for (const name of disk.names(join(old, inside))) {
      const path = inside === "" ? name : `${inside}/${name}`;
      // The list goes last: without it a second attempt would take our files for another's.
      if (path === LIST && made.size > 0) continue;
      const here = join(old, path);
      const isBoth =
        disk.kind(here) === "folder" && (hasOurs(path) || disk.kind(join(folder, path)) === "folder");
      if (isBoth) {
        walk(path);
        disk.removeFolder(here);
      } else if (isAsMade(disk, here, made.get(path))) {
        disk.remove(here);
        if (!now.has(path)) gone.push(path);
      } else {
        const as = freeName(disk, folder, path);
        makeFolders(disk, folder, dirname(as));
        disk.move(here, join(folder, as));
        if (made.has(path) || as !== path) left.push({ name: path, as, changed: made.has(path) });
      }
    }
  };
  walk("");
  if (made.size > 0) disk.remove(join(old, LIST));
  disk.removeFolder(old);
  return { left, gone };
}

/** The name itself where it is free in the folder, else with "-kept" before its ending. */
function freeName(disk: Disk, folder: string, path: string): string {
  const dot = path.lastIndexOf(".");
  const end = dot > path.lastIndexOf("/") + 1 ? dot : path.length;
  for (let n = 0; ; n++) {
    const more = n === 0 ? "" : n === 1 ? "-kept" : `-kept-${n}`;
    const as = `${path.slice(0, end)}${more}${path.slice(end)}`;
    if (disk.kind(join(folder, as)) === undefined) return as;
  }
}

/** Makes the folders of a path below one that is there. */
export function makeFolders(disk: Disk, below: string, path: string): void {
  let here = below;
  for (const part of path.split("/").filter((p) => p !== "" && p !== ".")) {
    here = join(here, part);
    if (disk.kind(here) !== "folder") disk.makeFolder(here);
  }
}

/** Takes a folder of ours away, with everything in it. */
export function removeTree(disk: Disk, path: string): void {
  for (const name of disk.names(path)) {
    const here = join(path, name);
    if (disk.kind(here) === "folder") removeTree(disk, here);
    else disk.remove(here);
  }
  disk.removeFolder(path);
}
