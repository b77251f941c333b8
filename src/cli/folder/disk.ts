import {
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmdirSync,
  unlinkSync,
  writeFileSync,
} from "node:fs";

/** All that making a folder of cards does to a disk, so that a test can end it after any of its steps. */
export interface Disk {
  /** What is there, links not followed; undefined where nothing is. */
  readonly kind: (path: string) => "file" | "folder" | "other" | undefined;
  readonly names: (folder: string) => readonly string[];
  readonly read: (file: string) => Uint8Array;
  /** Fails where something is there. */
  readonly write: (file: string, bytes: Uint8Array) => void;
  readonly makeFolder: (path: string) => void;
  readonly move: (from: string, to: string) => void;
  readonly remove: (file: string) => void;
  /** Fails where it is not empty. */
  readonly removeFolder: (path: string) => void;
}

export const nodeDisk: Disk = {
  kind: (path) => {
    const stat = lstatSync(path, { throwIfNoEntry: false });
    if (!stat) return undefined;
    return stat.isFile() ? "file" : stat.isDirectory() ? "folder" : "other";
  },
  names: (folder) => readdirSync(folder).sort(),
  read: (file) => readFileSync(file),
  write: (file, bytes) => writeFileSync(file, bytes, { flag: "wx" }),
  makeFolder: (path) => mkdirSync(path),
  move: (from, to) => renameSync(from, to),
  remove: (file) => unlinkSync(file),
  removeFolder: (path) => rmdirSync(path),
};
