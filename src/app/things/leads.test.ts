import { describe, expect, it } from "vitest";
import type { Finding } from "../../core/findings/index.ts";
import { readJob } from "../../core/job/index.ts";
import { planJob } from "../../core/plan/index.ts";
import { demo } from "../model/document/testing.ts";
import { questionsOf } from "./leads.ts";
import { sheetsOf } from "./topics.ts";

const finding = (code: Finding["code"], more: Partial<Finding> = {}): Finding => ({
  code,
  place: "",
  values: {},
  ...more,
});

describe("where a finding leads", () => {
  const document = demo();

  it("to the die of its place or of its bar, also a mirrored one's; each once", () => {
    const found = questionsOf(document, [
      finding("die-uncalibrated", { place: "dies.d45", bar: "main-hoop" }),
      finding("die-clr-differs", { place: "dies.d45.tests" }),
      finding("tail-short", { place: "bars.pillar-bar-right", bar: "pillar-bar-right" }),
    ]);
    expect(found).toEqual([
      { topic: "die", key: "d45" },
      { topic: "die", key: "d40" },
    ]);
  });

  it("to a sheet that there is: every question of every finding of the demo without its dies' figures", () => {
    const dies = Object.fromEntries(
      Object.entries(document.dies as Record<string, { od: number; clr: number }>).map(
        ([id, { od, clr }]) => [id, { od, clr }],
      ),
    );
    const bare = { ...document, dies, notcher: { saws: [12] } };
    const read = readJob(bare);
    if (!read.ok) throw new Error("the demo without its dies' figures is a job");
    const plan = planJob(read.job);
    const all = [...plan.findings, ...plan.bars.flatMap((bar) => bar.findings)];
    const questions = questionsOf(bare, all);
    expect(questions.length).toBeGreaterThan(2);
    for (const { topic, key } of questions) {
      if (topic === "car") continue;
      if (key !== undefined) expect(sheetsOf(bare, topic).map((s) => s.key)).toContain(key);
    }
    for (const key of ["notcher", "bender", "errors"])
      expect(sheetsOf(bare, "shop").map((s) => s.key)).toContain(key);
  });

  it("nowhere where the bar's own sentences mend it", () => {
    expect(questionsOf(document, [finding("corner-folds", { bar: "main-hoop" })])).toEqual([]);
  });
});
