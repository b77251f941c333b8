import { execFile } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { readdir, readFile, rename, rm, stat } from "node:fs/promises";
import { join } from "node:path";
import { promisify } from "node:util";

/** The system's Chromium (Debian's package chromium). */
export const CHROMIUM = process.env.CHROMIUM ?? "/usr/bin/chromium";

/** Nothing of the browser's own goes out: a closed network must not slow it, and a test of ours counts requests. */
export const FLAGS: readonly string[] = [
  "--no-sandbox",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--disable-dev-shm-usage",
];

/** The graphics of a machine without a card. */
export const SOFTWARE_GL: readonly string[] = [
  "--use-gl=angle",
  "--use-angle=swiftshader",
  "--enable-unsafe-swiftshader",
];

let built: Promise<string> | undefined;

/** The built app, built again whenever a source of it changed; test files that run at once may share it. */
export function builtApp(): Promise<string> {
  built ??= build();
  return built;
}

async function build(): Promise<string> {
  const out = `out/app-${await fingerprint(["src", "demo", "vite.config.ts", "package-lock.json"])}`;
  if (!existsSync(out)) {
    const making = `${out}-${process.pid}`;
    // As a release is built: within a test run the libraries would come in their versions for tests.
    const vite = join(process.cwd(), "node_modules/vite/bin/vite.js");
    const args = [vite, "build", "--logLevel", "error", "--outDir", join(process.cwd(), making)];
    await promisify(execFile)(process.execPath, args, { env: { ...process.env, NODE_ENV: "production" } });
    // Another test file may have been quicker; one of the two is as good as the other.
    await rename(making, out).catch(() => rm(making, { recursive: true }));
  }
  return join(process.cwd(), out);
}

async function fingerprint(roots: readonly string[]): Promise<string> {
  const hash = createHash("sha256");
  for (const root of roots) {
    const inside = (await stat(root)).isDirectory()
      ? (await readdir(root, { recursive: true })).sort()
      : [""];
    for (const name of inside) {
      const path = join(root, name);
      if (!/\.test\.tsx?$/.test(name) && (await stat(path)).isFile())
        hash.update(name).update(await readFile(path));
    }
  }
  return hash.digest("hex").slice(0, 16);
}
