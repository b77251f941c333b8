import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { build, cardsOf, ROOT } from "./cli.ts";
import { FAULTS, type Fault } from "./faults.ts";
import { readBack } from "./paper.ts";
import type { Report } from "./report.ts";
import { Second } from "./second/index.ts";

/** Minutes long: only where it is asked for, TUBEWRIGHT_FAULTS=1. */
const asked = process.env.TUBEWRIGHT_FAULTS === "1";

it("knows enough faults, each in a file of its own words", () => {
  expect(FAULTS.length).toBeGreaterThanOrEqual(15);
  for (const { find, put, file } of FAULTS) {
    expect(put).not.toBe(find);
    expect(file).toMatch(/^(cards|words|core\/(cope|bend|tube))\/[\w-]+\.ts$/);
  }
});

if (asked)
  describe("a fault planted in the sources is seen on paper", () => {
    const seconds = new Map<string, Second>();
    const right = new Map<string, Set<string>>();
    const jobFile = (job: string): string => join(ROOT, "tests", "paper", "jobs", `${job}.json`);
    let copy = "";
    let cli = "";

    /** What a report complains of, as words. */
    const complaints = (r: Report): string[] => [
      ...r.readings
        .filter((x) => !x.ok)
        .map((x) => `${x.file}: ${x.quantity} reads "${x.text}", should be ${x.wanted}`),
      ...r.unread,
      ...r.faults,
    ];
    const read = (job: string): string[] => {
      const out = cardsOf(jobFile(job), cli);
      const second = seconds.get(job) ?? new Second(jobFile(job));
      seconds.set(job, second);
      try {
        return complaints(readBack(second, out));
      } finally {
        rmSync(dirname(out), { recursive: true });
      }
    };

    beforeAll(() => {
      copy = mkdtempSync(join(tmpdir(), "tubewright-faults-"));
      for (const part of ["src", "bin", "tools", "package.json", "tsconfig.json", "tsconfig.base.json"])
        cpSync(join(ROOT, part), join(copy, part), { recursive: true });
      symlinkSync(join(ROOT, "node_modules"), join(copy, "node_modules"));
      cli = join(copy, "bin", "tubewright.mjs");
      build(copy);
      for (const job of new Set(FAULTS.map((f) => f.job))) right.set(job, new Set(read(job)));
    }, 600_000);
    afterAll(() => rmSync(copy, { recursive: true, force: true }));

    it.each(FAULTS.map((f): [string, Fault] => [f.what, f]))(
      "%s",
      (what, { file, find, put, job }) => {
        const path = join(copy, "src", file);
        const source = readFileSync(path, "utf8");
        expect(source.split(find).length - 1, `${file} holds the line to spoil`).toBeGreaterThanOrEqual(1);
        let seen: string[];
        try {
          writeFileSync(path, source.replace(find, put));
          build(copy);
          seen = read(job).filter((c) => !right.get(job)!.has(c));
        } finally {
          writeFileSync(path, source);
        }
        process.stdout.write(
          `${what}: ${seen.length === 0 ? "UNSEEN" : `${seen.length} seen, ${seen[0]}`}\n`,
        );
        expect(seen.length).toBeGreaterThan(0);
      },
      300_000,
    );
  });
