import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** A folder on a disk of so many megabytes, as far as one may mount one; undefined elsewhere. */
export function smallDisk(megabytes: number): string | undefined {
  const folder = mkdtempSync(join(tmpdir(), "tubewright-small-"));
  const size = `size=${megabytes}m`;
  if (spawnSync("mount", ["-t", "tmpfs", "-o", size, "tmpfs", folder]).status === 0) return folder;
  rmSync(folder, { recursive: true });
  return undefined;
}

export function takeAway(folder: string): void {
  // lazily: a closed SQLite file is let go by the garbage collector
  execFileSync("umount", ["-l", folder]);
  rmSync(folder, { recursive: true });
}
