import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { build, cardsOf, ROOT } from "./cli.ts";
import type { Reading } from "./figure.ts";
import { readBack } from "./paper.ts";
import { readCsv } from "./read-csv.ts";
import type { Report } from "./report.ts";
import { Second } from "./second/index.ts";

const JOBS = {
  demo: "demo/sandling.json",
  "in inches, uncalibrated die, a follower": "tests/paper/jobs/workbench-inches.json",
  "leaning plates, twins bent in their joints, a crowd": "tests/paper/jobs/leaning-plates.json",
  "unequal dies, fed from B": "tests/paper/jobs/unequal-dies.json",
  "half made": "tests/paper/jobs/half-made.json",
};

const say = (r: Reading): string =>
  `${r.file}: ${r.quantity} reads "${r.text}", should be ${r.wanted} — ${r.where}`;
const some = (list: readonly string[]): string[] =>
  list.length > 25 ? [...list.slice(0, 25), `… ${list.length} in all`] : [...list];

beforeAll(() => build(ROOT));

it("shares no code with what it checks", () => {
  const here = join(ROOT, "tests", "paper");
  const files = readdirSync(here, { recursive: true, encoding: "utf8" }).filter((f) => f.endsWith(".ts"));
  expect(files.length).toBeGreaterThan(10);
  const imports = files.flatMap((f) => [
    ...readFileSync(join(here, f), "utf8").matchAll(/^(?:import|export)[^;]*? from "([^"]+)"/gms),
  ]);
  for (const [, from] of imports) expect(from).toMatch(/^(node:|vitest$|\.\.?\/)/);
  for (const [, from] of imports) expect(from).not.toMatch(/\/(src|dist)\//);
});

describe.each(Object.entries(JOBS))("the paper of the job %s", (_, job) => {
  let report: Report;
  beforeAll(() => {
    const out = cardsOf(join(ROOT, job));
    report = readBack(new Second(join(ROOT, job)), out);
    rmSync(dirname(out), { recursive: true });
  }, 300_000);

  it("says what the second computation says, figure by figure", () => {
    const wrong = report.readings.filter((r) => !r.ok);
    expect(some(wrong.map(say))).toEqual([]);
    expect(report.readings.length).toBeGreaterThan(1000);
  });
  it("prints no figure that nobody reads back", () => {
    expect(some(report.unread)).toEqual([]);
    expect(report.printed).toBeGreaterThan(2000);
  });
  it("draws everything where it belongs, and leaves nothing out", () => {
    expect(some(report.faults)).toEqual([]);
  });
});

it("says of bars in each other's way, in their own and in a plate's what the second computation says", () => {
  const job = join(ROOT, "tests", "paper", "jobs", "in-the-way.json");
  const second = new Second(job);
  const found = second.clashes.map((c) => [c.code, c.bar, c.other ?? c.plate ?? c.bar].join(" "));
  expect(found.sort()).toEqual([
    "clash on by",
    "clash on short",
    "clash-plate low foot",
    "clash-self loop loop",
  ]);
  const out = cardsOf(job);
  const { readings, unread, faults } = readBack(second, out);
  rmSync(dirname(out), { recursive: true });
  expect(readings.filter((r) => !r.ok)).toEqual([]);
  expect(unread).toEqual([]);
  expect(faults).toEqual([]);
  for (const { code } of second.clashes)
    expect(readings.filter((r) => r.quantity.startsWith(`${code}.by`)).length).toBeGreaterThan(0);
}, 120_000);

it("counts a card that was issued, and the next one once its figures changed", () => {
  const job = join(ROOT, "tests", "paper", "jobs", "unequal-dies.json");
  const first = cardsOf(job);
  const [head, ...rows] = readCsv(readFileSync(join(first, "bars.csv"), "utf8"));
  const cell = (row: string[], column: string): string => row[head!.indexOf(column)]!;
  rmSync(dirname(first), { recursive: true });
  // the first bar's figures have changed since it was issued
  const cards = Object.fromEntries(
    rows.map((row, i) => [
      cell(row, "bar"),
      { n: 3 + i, code: i === 0 ? "0000" : cell(row, "code"), on: "2026-11-29" },
    ]),
  );
  const folder = mkdtempSync(join(tmpdir(), "tubewright-issued-"));
  const issued = join(folder, "job.json");
  writeFileSync(issued, JSON.stringify({ ...JSON.parse(readFileSync(job, "utf8")), version: 2, cards }));
  const out = cardsOf(issued);
  const { readings, unread, faults } = readBack(new Second(issued), out);
  for (const path of [dirname(out), folder]) rmSync(path, { recursive: true });
  expect(some(readings.filter((r) => !r.ok).map(say))).toEqual([]);
  expect([some(unread), some(faults)]).toEqual([[], []]);
  const days = readings.filter((r) => r.quantity.startsWith("card.on") && r.text === "2026-11-29");
  expect(days.length).toBeGreaterThan(rows.length - 1);
  expect(readings.filter((r) => r.quantity.startsWith("card.new") && r.wanted === "true")).not.toEqual([]);
}, 120_000);
