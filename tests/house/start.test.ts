import { spawn } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { expect, it, onTestFinished } from "vitest";

/** A folder of its own, where processes take the lock as `npm start` does. */
function room(): string {
  const made = mkdtempSync(join(tmpdir(), "tubewright-lock-"));
  onTestFinished(() => rmSync(made, { recursive: true }));
  return made;
}

/** Takes the lock, writes a line at both ends of some work, lets go. */
const holder = `
  import { appendFileSync } from "node:fs";
  const { takeLock } = await import(process.env.LOCK);
  const letGo = await takeLock();
  appendFileSync("log", "in\\n");
  await new Promise((done) => setTimeout(done, 150));
  appendFileSync("log", "out\\n");
  letGo();
`;
const run = (cwd: string): Promise<number | null> =>
  new Promise((done) => {
    const env = { ...process.env, LOCK: resolve("tools/lock.mjs") };
    spawn(process.execPath, ["--input-type=module", "-e", holder], { cwd, env }).on("close", done);
  });

it("starts in one folder set up and build one after another, also after one that was killed", async () => {
  const folder = room();
  mkdirSync(join(folder, "dist"));
  // the number of a process that lives no more
  const dead = spawn(process.execPath, ["-e", ""]);
  await new Promise((done) => dead.on("close", done));
  writeFileSync(join(folder, "dist", ".building"), String(dead.pid));
  expect(await Promise.all([run(folder), run(folder), run(folder)])).toEqual([0, 0, 0]);
  expect(readFileSync(join(folder, "log"), "utf8")).toBe("in\nout\n".repeat(3));
  expect(existsSync(join(folder, "dist", ".building"))).toBe(false);
}, 60_000);
