import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { shellJob } from "../support/shell-job.ts";
import { run } from "./run.ts";

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), "tubewright-"));
  onTestFinished(() => rmSync(made, { recursive: true }));
  return made;
}

describe("tubewright cards of a car that was measured", () => {
  it("gives the reading list and the measuring plan beside the overview", async () => {
    const out = folder();
    const { code, err } = await run(["cards", "job", "--out", out, "--paper", "Letter"], {
      job: JSON.stringify(shellJob()),
    });
    expect(code, err).toBe(0);
    expect(readdirSync(out)).toEqual([
      "files-made.list",
      "measuring-plan.pdf",
      "overview.pdf",
      "readings.pdf",
    ]);
    expect(readFileSync(join(out, "readings.pdf"), "latin1")).toMatch(/^%PDF-/);
  });

  it("gives neither where nothing is measured", async () => {
    const out = folder();
    const { readings: _, points: __, ...bare } = shellJob();
    expect((await run(["cards", "job", "--out", out], { job: JSON.stringify(bare) })).code).toBe(0);
    expect(readdirSync(out)).toEqual(["files-made.list", "overview.pdf"]);
  });
});
