import { execFileSync } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = fileURLToPath(new URL("../..", import.meta.url));

/** A job's cards as a person has them made: the command line, its files in a new folder. Exit 0 is asked for. */
export function cardsOf(job: string, cli = join(ROOT, "bin", "tubewright.mjs")): string {
  const out = join(mkdtempSync(join(tmpdir(), "tubewright-paper-")), "cards");
  execFileSync(process.execPath, [cli, "cards", job, "--out", out, "--csv"], {
    stdio: ["ignore", "ignore", "pipe"],
  });
  return out;
}

/** The command line built from the sources as they are in a folder. */
export function build(root: string, into = "dist"): void {
  execFileSync(process.execPath, ["tools/build.mjs", into], {
    cwd: root,
    stdio: ["ignore", "ignore", "pipe"],
  });
}
