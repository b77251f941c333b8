/** The second demo: what its makers put into it is what the program finds again from its readings. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { tacked } from "../../src/app/model/compute/answers/tacked.ts";
import { trestles } from "../../src/app/model/compute/answers/trestles.ts";
import { PROGRESS, readJob } from "../../src/core/job/index.ts";
import { deg } from "../../src/core/numeric/index.ts";
import { changeOf, notAsWanted, planJob } from "../../src/core/plan/index.ts";
import { halfBuilt, OFF } from "../../tools/half-built.ts";
import { run } from "../cli/run.ts";

const FILE = "demo/sandling-half-built.json";
const text = readFileSync(FILE, "utf8");
const read = readJob(JSON.parse(text));
if (!read.ok) throw new Error(JSON.stringify(read.problems));
const { job } = read;
const plan = planJob(job);

describe("the demo car half built", () => {
  it("is what its program makes of the first demo: npx tsx tools/half-built.ts", () => {
    expect(halfBuilt(readFileSync("demo/sandling.json", "utf8"))).toBe(text);
  });

  it("has bars at every step, each with what it was made to", () => {
    const come = Object.entries(job.bars).map(([id, bar]) => [id, bar.progress ?? "laid out"] as const);
    expect(new Set(come.map(([, progress]) => progress))).toEqual(new Set(PROGRESS));
    const made = come.filter(([, progress]) => progress !== "laid out").map(([id]) => id);
    expect(
      Object.keys(job.made ?? {})
        .filter((id) => job.made?.[id]?.to)
        .sort(),
    ).toEqual(made.sort());
    expect(Object.keys(job.cards ?? {}).sort()).toEqual(made.sort());
    expect([...(job.order ?? [])].sort()).toEqual(Object.keys(job.bars).sort());
    expect(job.dies.d40?.tests).toHaveLength(3);
    expect(plan.bars).toHaveLength(Object.keys(job.bars).length);
  });

  it("survey names the tape that was read wrong, and by how much", async () => {
    const { code, out } = await run(["survey", FILE, "--json"]);
    expect(code).toBe(0);
    expect((JSON.parse(out) as { suspects: number[] }).suspects).toEqual([OFF.slipAt]);
  });

  it("the trestles find the bend that is over, within its own ±, and say how to save the bar", () => {
    const answer = trestles(plan, { bar: "pillar-bar-left" });
    if (!answer?.judged || answer.judged === "none") throw new Error("no answer");
    const { bent, verdict } = answer.judged;
    const off = bent.shape.angles.map((a, i) => deg(a - (answer.wanted.angles[i] ?? 0)));
    const sd = bent.sd.angles.map(deg);
    off.forEach((by, i) => {
      const real = i === OFF.bend - 1 ? OFF.over : 0;
      expect(Math.abs(by - real)).toBeLessThan((sd[i] ?? 0) + (real === 0 ? 0.1 : 0));
    });
    expect(bent.suspect).toBeUndefined();
    expect(verdict.kind).toBe("moved");
  });

  it("the hoop and what is in it are found so far forward, within their ±, and that changes cards", () => {
    const answer = tacked(plan, { bar: "main-hoop" });
    if (!answer?.judged || answer.judged === "none") throw new Error("no answer");
    const { found, after } = answer.judged;
    expect(found.bars.map((b) => b.id)).toEqual(["main-hoop", "harness-bar", "hoop-diagonal-upper-half"]);
    for (const { moved, sd } of found.bars)
      moved.forEach((by, i) => {
        expect(Math.abs(by - OFF.forward)).toBeLessThan(sd[i] ?? 0);
      });
    expect([found.suspect, answer.slipped, after.lost]).toEqual([undefined, [], []]);
    expect(after.stale.length).toBeGreaterThan(5);
    expect(after.cut.map((c) => c.id)).toContain("pillar-bar-right");
  });

  it("names the notched stay whose plate was moved after, and nothing else, as not what is wanted now", () => {
    expect(notAsWanted(plan).map((v) => [v.bar, v.verdict])).toEqual([["rear-stay-left", "make again"]]);
  });

  it("nothing contradicts: no error, the dangers of the first demo alone, no bar made otherwise than wanted", async () => {
    const { code, out } = await run(["check", FILE]);
    const overlaps = /^! bars\.(door-bar-front-upper-half-(?:left|right)): move .* they overlap by 0\.6 mm/;
    const dangers = out.split("\n").filter((line) => line.startsWith("!"));
    expect([code, dangers.map((line) => overlaps.exec(line)?.[1])]).toEqual([
      0,
      ["door-bar-front-upper-half-left", "door-bar-front-upper-half-right"],
    ]);
    expect(changeOf(plan, job).bars).toEqual([]);
  });
});
