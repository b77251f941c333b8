import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Job, MadeTo, Progress } from "../job/index.ts";
import { readJob } from "../job/index.ts";
import {
  asMade,
  isOnTube,
  marked,
  notAsWanted,
  notchAt,
  notchFrom,
  oldPaper,
  onTube,
  planJob,
} from "./index.ts";

const read = readJob(JSON.parse(readFileSync("demo/sandling.json", "utf8")));
const job: Job = read.ok ? read.job : expect.fail();
const plan = planJob(job);

/** The demo with one bar that far, by what its steps keep. */
function having(id: string, progress: Progress, to: MadeTo | undefined, of: Job = job): Job {
  const bar = of.bars[id]!;
  const made = to ? { ...of.made, [id]: { to, bent: [], tacked: [], gaps: {}, past: [] } } : (of.made ?? {});
  return { ...of, made, bars: { ...of.bars, [id]: { ...bar, progress } } };
}

const HOOP = "main-hoop";
const SILL = "harness-bar";

describe("what was made", () => {
  it("is nothing of a bar that is only laid out", () => {
    expect(asMade(plan, HOOP)).toBeUndefined();
  });

  it("is what the plan wants where it was made to that, every bar of the demo", () => {
    for (const { id } of plan.bars) {
      const to = marked(plan, id, "notched")!.to;
      const made = asMade(planJob(having(id, "notched", to), plan), id)!;
      expect(made.verdict, id).toBeUndefined();
      expect(isOnTube(made), id).toBe(false);
      expect(made.sawn.made.length).toBeCloseTo(made.sawn.wanted.length, 5);
      expect(made.bent?.made.bends.map((b) => b.mark) ?? []).toEqual(
        made.bent?.wanted.bends.map((b) => expect.closeTo(b.mark, 4)) ?? [],
      );
      for (const end of ["A", "B"] as const) {
        const { made: was, wanted } = made.notched[end]!;
        expect(was.by).toBe(wanted.by);
        expect(was.finished).toBeCloseTo(wanted.finished, 5);
      }
    }
  });

  it("is by the job's own figures where an old job keeps none", () => {
    const made = asMade(planJob(having(HOOP, "bent", undefined), plan), HOOP)!;
    expect(made.bent!.made.bends).toHaveLength(plan.byId.get(HOOP)!.bend.bends.length);
    expect(made.notched).toEqual({});
  });

  it("has the hole of a notch from the sawn end, as the card has it", () => {
    let count = 0;
    for (const { id } of plan.bars)
      for (const end of ["A", "B"] as const) {
        const hole = notchAt(plan, id, end)?.hole;
        const to = marked(plan, id, { notched: end }, "hole saw")!.to;
        const cut = asMade(planJob(having(id, "bent", to), plan), id)!.notched[end]!.made.cuts;
        if (!hole || cut.length !== 1) continue;
        count++;
        expect(cut[0]!.fromSawn, `${id} ${end}`).toBeCloseTo(hole.fromSawn, 4);
      }
    expect(count).toBeGreaterThan(20);
  });

  it("keeps the step that is not done to the plan: one end notched, the other not", () => {
    const to = marked(plan, HOOP, { notched: "A" })!.to;
    const made = asMade(planJob(having(HOOP, "bent", to), plan), HOOP)!;
    expect(made.notched.A).toBeDefined();
    expect(made.notched.B).toBeUndefined();
  });
});

describe("a tube that is not what is wanted now", () => {
  const to = marked(plan, SILL, "sawn")!.to;
  const sawnTo = (more: number) => {
    const { length } = to.sawn!;
    return planJob(having(SILL, "sawn", { ...to, sawn: { ...to.sawn!, length: length + more } }), plan);
  };

  it("is judged, and its allowance is what it has: both ends together by so much more", () => {
    for (const more of [8, -8]) {
      const made = asMade(sawnTo(more), SILL)!;
      expect(made.verdict).toBeDefined();
      expect(made.extra.A + made.extra.B).toBeCloseTo(more, 4);
      const there = onTube(plan.byId.get(SILL)!, made);
      expect(there.bend.blank + there.bend.trim.A + there.bend.trim.B).toBeCloseTo(made.sawn.made.length, 4);
      expect(there.bar.trim).toEqual(there.bend.trim);
    }
  });

  it("has every hole counted from its sawn ends", () => {
    const { extra } = asMade(sawnTo(8), SILL)!;
    const notch = notchAt(plan, SILL, "B")!;
    expect(notchFrom(notch, extra.B).hole!.fromSawn).toBeCloseTo(notch.hole!.fromSawn + extra.B, 9);
    expect(notchFrom(undefined, 3)).toBeUndefined();
  });

  it("is too short: nothing is figured from it", () => {
    const short = asMade(sawnTo(-400), SILL)!;
    expect(short.verdict!.verdict).toBe("make again");
    expect(isOnTube(short)).toBe(false);
    expect(notAsWanted(sawnTo(-400)).map((v) => v.bar)).toEqual([SILL]);
  });

  it("of a bar still to be bent its marks count from the same end; of a bent one they stay", () => {
    const hoop = marked(plan, HOOP, "bent")!.to;
    const longer = { ...hoop, sawn: { ...hoop.sawn!, length: hoop.sawn!.length + 6 } };
    const sawn = asMade(planJob(having(HOOP, "sawn", { sawn: longer.sawn }), plan), HOOP)!;
    const was = plan.byId.get(HOOP)!;
    const now = onTube(was, sawn);
    was.bend.bends.forEach((b, i) => {
      expect(now.bend.bends[i]!.mark - b.mark).toBeCloseTo(sawn.extra.A, 6);
      expect(now.bend.bends[i]!.mark + now.bend.bends[i]!.markB).toBeCloseTo(b.mark + b.markB + 6, 4);
    });
    const bent = asMade(planJob(having(HOOP, "bent", longer), plan), HOOP)!;
    expect(onTube(was, bent).bend.bends).toEqual(was.bend.bends);
  });
});

describe("paper in the shop", () => {
  const card = { n: 3, code: "0000", on: "2026-11-29" };
  it("is old where it has other figures than the plan, until the bar is in its place", () => {
    const issued = { ...job, cards: { [SILL]: card } };
    expect(oldPaper(planJob(issued, plan), SILL)).toEqual({ had: 3, now: 4 });
    expect(oldPaper(plan, SILL)).toBeUndefined();
    const { to } = marked(plan, SILL, "tacked")!;
    expect(oldPaper(planJob(having(SILL, "tacked", to, issued), plan), SILL)).toBeUndefined();
  });
});
