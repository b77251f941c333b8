import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { pairedCage } from "../support/fit.ts";

/** The built program: the threads are a file of their own beside it. */
let folder = "";
beforeAll(() => {
  mkdirSync("dist", { recursive: true });
  folder = mkdtempSync("dist/try-");
  execFileSync("node", ["tools/build.mjs", folder]);
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

const job = {
  ...pairedCage([-600, 420, 100]),
  order: ["left", "right", "high", "low", "stay", "stay-r"],
};

const call = (...args: string[]) => {
  const file = join(folder, "job.json");
  writeFileSync(file, JSON.stringify(job));
  return spawnSync("node", [join(folder, "cli.mjs"), "fit", file, ...args], { encoding: "utf8" });
};

test("however many threads judge an order, the answers are the same to the last digit", () => {
  const one = call("--json", "--threads", "1");
  expect([one.status, one.stderr]).toEqual([0, ""]);
  const two = call("--json", "--threads", "2", "--progress");
  expect(two.status).toBe(0);
  expect(two.stdout).toBe(one.stdout);
  const answer = JSON.parse(one.stdout) as { bars: { goesIn: string }[] };
  expect(answer.bars.map((b) => b.goesIn)).toEqual(["free", "free", "free", "free", "free", "free"]);
  // A line a bar, counted, where it is asked for.
  expect(
    two.stderr
      .trim()
      .split("\n")
      .map((l) => l.split("  ")[0])
      .sort(),
  ).toEqual([1, 2, 3, 4, 5, 6].map((n) => `${n} of 6`));
});
