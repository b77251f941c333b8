import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readJob } from "../job/index.ts";
import { allFindings, notchAt, planJob } from "./index.ts";

type Doc = { bars: Record<string, { path?: unknown[]; die?: string }>; bender: { height: number } };
const text = readFileSync("demo/sandling.json", "utf8");
const jobOf = (edit: (doc: Doc) => void = () => undefined) => {
  const doc = JSON.parse(text) as Doc;
  edit(doc);
  const read = readJob(doc);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.job;
};

describe("the plan of a job, edited", () => {
  const plan = planJob(jobOf());

  it("the same job again keeps every bar's results", () => {
    const again = planJob(jobOf(), plan);
    expect(again.bars.every((b, i) => b === plan.bars[i])).toBe(true);
    expect(again.bars.length).toBe(36);
  });

  it("one bar's landing moved: that bar, what lands on it and the twins are new, nothing else", () => {
    const after = planJob(
      jobOf((doc) => {
        (doc.bars["header-bar"]!.path![0] as { along: number }).along += 5;
      }),
      plan,
    );
    const fresh = after.bars.filter((b) => b !== plan.byId.get(b.id)).map((b) => b.id);
    expect(fresh).toEqual([
      "header-bar",
      "roof-cross-through-bar",
      "roof-cross-rear-half",
      "roof-cross-front-half",
    ]);
  });

  it("a saw setting is figured once and kept while nothing that it hangs on changes", () => {
    const first = notchAt(plan, "pillar-bar-left", "A");
    expect(notchAt(plan, "pillar-bar-left", "A")).toBe(first);
    expect(notchAt(planJob(jobOf(), plan), "pillar-bar-left", "A")).toBe(first);
    expect(notchAt(plan, "pillar-bar-left", "A", 4)).not.toBe(first);
    expect(notchAt(plan, "main-hoop", "A")).toBeUndefined();
    expect(notchAt(plan, "nobody", "A")).toBeUndefined();
  });

  it("a bar without geometry takes along only what stands on it; the others are answered", () => {
    const broken = planJob(
      jobOf((doc) => {
        doc.bars["header-bar"]!.path![0] = { on: "pillar-bar-left", along: 99_999 };
      }),
    );
    expect(broken.bars.length).toBe(32);
    expect(
      allFindings(broken).filter((f) => f.code === "host-without-geometry").length,
    ).toBeGreaterThanOrEqual(3);
    expect(broken.findings[0]!.code).toBe("landing-off-host");
  });
});
