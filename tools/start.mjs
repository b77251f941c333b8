// npm start: sets up, builds the command line and the app beside what is there, puts the new files in place one by
// one, the page itself last, and serves. Several at once in one folder, or one while another serves, do no harm.
import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, renameSync, rmSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { takeLock } from "./lock.mjs";

process.chdir(fileURLToPath(new URL("..", import.meta.url)));

function run(...args) {
  const done = spawnSync(process.execPath, args, { stdio: ["ignore", "inherit", "inherit"] });
  if (done.status !== 0) {
    console.error(`node ${args.join(" ")} did not succeed`);
    process.exit(done.status ?? 1);
  }
}

/** Every file below a folder, as paths from it. */
const filesOf = (folder) =>
  readdirSync(folder, { recursive: true }).filter((name) => statSync(join(folder, name)).isFile());

/** The page and what says which files belong to it come last, so that nothing names a file that is not there yet. */
const late = (name) => (name === "sw.js" ? 2 : name === "index.html" ? 1 : 0);

/** Each file takes its place by a rename; what the build no longer makes goes at the end. */
function place(from, to) {
  const made = filesOf(from).sort((a, b) => late(a) - late(b));
  for (const name of made) {
    mkdirSync(dirname(join(to, name)), { recursive: true });
    renameSync(join(from, name), join(to, name));
  }
  return new Set(made);
}

run("tools/setup.mjs");
const letGo = await takeLock();
const next = `dist/next-${process.pid}`;
for (const name of readdirSync("dist").filter((n) => n.startsWith("next-"))) rmSync(join("dist", name), { recursive: true });
try {
  run("tools/build.mjs", join(next, "cli"));
  run("node_modules/vite/bin/vite.js", "build", "--outDir", join(process.cwd(), next, "app"), "--logLevel", "warn");
  place(join(next, "cli"), "dist");
  const made = place(join(next, "app"), "dist/app");
  for (const name of filesOf("dist/app")) if (!made.has(name)) rmSync(join("dist/app", name));
} finally {
  rmSync(next, { recursive: true, force: true });
  letGo();
}
const [node, , ...more] = process.argv;
process.argv = [node, "tubewright", "serve", "demo/sandling.json", ...more];
await import("../bin/tubewright.mjs");
