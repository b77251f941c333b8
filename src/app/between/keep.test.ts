import { describe, expect, it } from "vitest";
import { readJob } from "../../core/job/index.ts";
import { type Plan, planJob } from "../../core/plan/index.ts";
import { at, type JobDocument, thingsOf } from "../model/document/index.ts";
import { demo } from "../model/document/testing.ts";
import { keepIn } from "./keep.ts";
import { jobOfReadings, NEW_BAR, type TwoTubes } from "./readings.ts";

const readings: TwoTubes = {
  od1: 45,
  wall1: 2.5,
  od2: "1 1/2 in",
  wall2: "0.095 in",
  od: "40 mm",
  wall: 2,
  distance: 880,
  tape: "between",
  reading1: 71,
  reading2: 104,
  twist: 12,
  trust: 1,
  show: { length: "mm", fraction: 16 },
  set: ["od1", "wall1", "od2", "wall2", "od", "wall"],
};
const made = (): JobDocument => {
  const job = jobOfReadings(readings);
  return job.ok ? job.document : expect.fail(job.why);
};
function planned(document: JobDocument): Plan {
  const read = readJob(document);
  return planJob(read.ok ? read.job : expect.fail(JSON.stringify(read.problems)));
}
function kept(document: JobDocument) {
  const { bar, command } = keepIn(document, made());
  const edit = command.edit(document);
  return { bar, document: edit.ok ? edit.document : expect.fail(edit.lines.join("\n")) };
}

describe("a bar between two tubes, kept in a job that is there", () => {
  it("has the length and the notches that it had by itself, and moves nothing of the job", () => {
    const [alone, before] = [planned(made()), planned(demo())];
    const { bar, document } = kept(demo());
    const now = planned(document);
    expect(now.byId.get(bar)!.bend.blank).toBeCloseTo(alone.byId.get(NEW_BAR)!.bend.blank, 9);
    for (const end of ["A", "B"] as const)
      expect(now.byId.get(bar)!.copes[end].cope.outer).toEqual(
        alone.byId.get(NEW_BAR)!.copes[end].cope.outer,
      );
    for (const was of before.bars) expect(now.byId.get(was.id)!.bend).toEqual(was.bend);
    expect(now.bars.length).toBe(before.bars.length + 3);
  });

  it("is of the job's own tubes where they are the same size, and brings the others", () => {
    const { document } = kept(demo());
    expect(at(document, ["bars", "tube-1", "tube"])).toBe("45x2.5");
    expect(at(document, ["bars", "new-bar", "tube"])).toBe("40x2");
    const names = Object.keys(thingsOf(document, "tube"));
    expect(names.length).toBe(Object.keys(thingsOf(demo(), "tube")).length + 1);
    expect(at(document, ["bars", "tube-2", "tube"])).toBe(names.at(-1));
    expect(at(document, ["tubes", names.at(-1)!])).toEqual({ od: "1 1/2 in", wall: "0.095 in" });
  });

  it("twice: the second has names of its own and lands on its own tubes", () => {
    const once = kept(demo());
    const twice = kept(once.document);
    expect(twice.bar).toBe("new-bar-2");
    expect(at(twice.document, ["bars", "new-bar-2"])).toMatchObject({
      label: "New bar 2",
      path: [{ on: "tube-1-2" }, { on: "tube-2-2" }],
    });
    expect(thingsOf(twice.document, "tube")).toEqual(thingsOf(once.document, "tube"));
    expect(planned(twice.document).byId.get("new-bar-2")!.bend.blank).toBeCloseTo(
      planned(once.document).byId.get("new-bar")!.bend.blank,
      9,
    );
  });

  it("goes into an empty job too", () => {
    const { bar, document } = kept({ format: "tubewright job", version: 2, name: "Empty" });
    expect(planned(document).byId.has(bar)).toBe(true);
  });
});

it("says of each tube which sizes nobody set: they are the page's examples", () => {
  const job = jobOfReadings({ ...readings, set: ["od", "wall1"] });
  if (!job.ok) throw new Error(job.why);
  const tubes = ["tube-1", "tube-2", NEW_BAR].map((id) => at(job.document, ["tubes", id, "example"]));
  expect(tubes).toEqual([["od"], ["od", "wall"], ["wall"]]);
});
