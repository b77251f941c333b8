import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { run } from "./run.ts";

let folder = "";
const at = (name: string): string => join(folder, name);
const trial = readFileSync("tests/corpus/trial-frame.json", "utf8");
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "tubewright-in-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

const refused = async (path: string): Promise<string> => {
  for (const command of ["check", "bend", "survey"]) {
    const { code, out, err } = await run([command, path]);
    expect([command, code, out]).toEqual([command, 2, ""]);
    expect(err.trimEnd().split("\n")).toHaveLength(1);
  }
  return (await run(["check", path])).err;
};

it("a label in Latin-1 is refused at its line and column, not read wrongly", async () => {
  const bytes = Buffer.from(trial.replace("Shoulder bar", "Schulterb\u00fcgel"), "latin1");
  writeFileSync(at("latin.json"), bytes);
  const before = trial.slice(0, trial.indexOf("Shoulder bar")).split("\n");
  const place = `line ${before.length}, column ${before.at(-1)!.length + "Schulterb".length + 1}`;
  expect(await refused(at("latin.json"))).toBe(
    `${at("latin.json")}: ${place}: byte 0xFC is no UTF-8; save the file as UTF-8\n`,
  );
});

it("a key given twice is refused at its line and column", async () => {
  writeFileSync(at("twice.json"), trial.replace('"od": 45,', '"od": 45,\n "od": 40,'));
  expect(await refused(at("twice.json"))).toMatch(
    /^line \d+, column 2: tubes\.main\.od is given a second time \(first in line \d+, column \d+\); keep one\n$/,
  );
});

it("only regular files are read: a folder, a pipe and a device are one sentence each, at once", async () => {
  mkdirSync(at("folder.json"));
  expect(await refused(at("folder.json"))).toContain("that is a folder; name the job file in it");
  if (process.platform === "win32") return;
  execFileSync("mkfifo", [at("pipe.json")]);
  expect(await refused(at("pipe.json"))).toContain("that is a pipe or a device; save the job as a file");
  expect(await refused("/dev/null")).toContain("that is a pipe or a device; save the job as a file");
});

it("a job of a newer version is read, said to be read-only, and answered as ever where all of it is known", async () => {
  const path = at("newer.json");
  const newer = JSON.stringify({ ...JSON.parse(trial), version: 3 });
  writeFileSync(path, newer);
  for (const command of ["check", "bend", "cope", "survey"]) {
    const plain = await run([command, "tests/corpus/trial-frame.json", "--json"]);
    const read = await run([command, path, "--json"]);
    expect([command, read.code, read.out]).toEqual([command, plain.code, plain.out]);
    expect(read.err).toMatch(
      /^Update Tubewright to change this job\. A newer Tubewright \(version 3\) wrote it.*\n/,
    );
  }
  expect(readFileSync(path, "utf8")).toBe(newer);
});

it("a job of a newer version with a key unknown here has no figures", async () => {
  const path = at("unknown.json");
  const document = JSON.parse(trial);
  document.version = 3;
  document.bars.hoop.sleeve = 3;
  writeFileSync(path, JSON.stringify(document));
  const { code, out, err } = await run(["bend", path]);
  expect([code, out]).toEqual([2, ""]);
  expect(err).toMatch(
    /^version: written by a newer Tubewright \(3\).*\nbars\.hoop\.sleeve: unknown key.*\n$/,
  );
});
