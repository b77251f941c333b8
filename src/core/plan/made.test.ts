import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { problemLine } from "../../words/index.ts";
import { placesOf } from "../bar/index.ts";
import { readJob } from "../job/index.ts";
import {
  asWanted,
  blankOf,
  figuredJoint,
  judgeTacked,
  notchAt,
  planJob,
  restate,
  tackReading,
} from "./index.ts";

type Json = Record<string, unknown>;
const demo = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as Json;
const planOf = (more: Json) => {
  const read = readJob({ ...demo, ...more });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join("\n"));
  return planJob(read.job);
};
const linesOf = (more: Json): readonly string[] => {
  const read = readJob({ ...demo, ...more });
  return read.ok ? [] : read.problems.map(problemLine);
};
const plan = planOf({});
const ID = "pillar-bar-left";
const { bar } = plan.byId.get(ID)!;
const path = placesOf(bar.centreline);

describe("a bar as built that says what stands over at its ends", () => {
  const over = { A: bar.trim.A - 4.5, B: bar.trim.B + 7 };
  const built = planOf({ asBuilt: { [ID]: { path, over } } });
  const now = built.byId.get(ID)!;

  it("stands where it did, is no longer at either end, and is counted from its ends as sawn", () => {
    expect(now.bar.trim).toEqual(over);
    expect(now.bend.blank).toBeCloseTo(plan.byId.get(ID)!.bend.blank, 6);
    for (const end of ["A", "B"] as const) {
      const [was, is] = [notchAt(plan, ID, end), notchAt(built, ID, end)];
      if (!was?.hole || !is?.hole) continue;
      expect(is.hole.fromSawn - was.hole.fromSawn).toBeCloseTo(over[end] - bar.trim[end], 6);
      expect(is.hole.beyondLong).toBeCloseTo(was.hole.beyondLong, 6);
    }
    expect(now.bend.bends[0]!.mark - plan.byId.get(ID)!.bend.bends[0]!.mark).toBeCloseTo(-4.5, 6);
  });

  it("leaves what lands on it alone, and its own readings are judged against the bar as wanted", () => {
    for (const b of built.bars) if (b.id !== ID) expect(b.bend).toEqual(plan.byId.get(b.id)!.bend);
    const { stale, cut, lost } = restate(plan, { [ID]: { path, over } });
    expect({ stale, cut, lost }).toEqual({ stale: [], cut: [], lost: [] });
    expect(blankOf(asWanted(built, ID).byId.get(ID)!)).toEqual(blankOf(plan.byId.get(ID)!));
    expect(asWanted(plan, ID)).toBe(plan);
  });

  it("with the same trim and places is the plan itself", () => {
    const same = planOf({ asBuilt: { [ID]: { path, over: bar.trim } } });
    expect(same.byId.get(ID)!.bar.seat).toEqual(bar.seat);
    expect(same.byId.get(ID)!.bend).toEqual(plan.byId.get(ID)!.bend);
  });
});

describe("what was read of a bar after it was made", () => {
  it("changes no figure by itself", () => {
    const read = planOf({
      made: { [ID]: { bent: [{ what: "angle", bend: 2, angle: 43.2 }], stale: { why: "read anew" } } },
    });
    expect(read.byId.get(ID)!.bend).toEqual(plan.byId.get(ID)!.bend);
    // an earlier program struck old cards so: it is read without complaint, and dropped
    expect(read.job.made?.[ID]).toMatchObject({ tacked: [], gaps: {} });
    expect(read.job.made?.[ID]).not.toHaveProperty("stale");
  });

  it("names bars and points that there are, in one clear line where not", () => {
    expect(linesOf({ made: { "pillar-bar-lefft": {} } })).toEqual([
      'made.pillar-bar-lefft: no bar is called "pillar-bar-lefft" — did you mean "pillar-bar-left"?',
    ]);
    const tacked = [{ what: "tape", from: "sill", to: { bar: "main-hop", along: 3 }, size: 900 }];
    expect(linesOf({ made: { "main-hoop": { tacked } } })).toEqual([
      'made.main-hoop.tacked[0].from: no point is called "sill"; the job has no points',
      'made.main-hoop.tacked[0].to.bar: no bar is called "main-hop" — did you mean "main-hoop"?',
    ]);
    expect(linesOf({ made: { [ID]: { bent: [{ what: "angle", bend: 2, angle: 270 }] } } })).toHaveLength(1);
    expect(linesOf({ made: { [ID]: { bent: [{ what: "end-to-end", size: "sixty" }] } } })).toHaveLength(1);
  });

  it("a tacked bar read where it is planned strikes no card", () => {
    const size = {
      what: "height",
      of: { bar: "main-hoop", along: 1442 },
      over: "centre",
      size: 1085,
    } as const;
    const reading = tackReading(size, {})!;
    const judged = judgeTacked(plan, "main-hoop", [reading])!;
    expect(judged.found.readings[0]!.computed).toBeCloseTo(1085, 6);
    expect(judged.after).toMatchObject({ stale: [], cut: [], lost: [] });
    expect(tackReading({ ...size, of: "nowhere" }, {})).toBeUndefined();
  });

  it("says why there is no joint to feel gaps at", () => {
    expect(figuredJoint(plan, "no-such-bar", "A")).toEqual({ ok: false, why: "no bar" });
    expect(figuredJoint(plan, "main-hoop", "A")).toEqual({ ok: false, why: "flat" });
    expect(figuredJoint(planOf({ notcher: { saws: [20] } }), "harness-bar", "A")).toEqual({
      ok: false,
      why: "no saw",
    });
    expect(figuredJoint(plan, "harness-bar", "A")).toMatchObject({ ok: true });
  });
});
