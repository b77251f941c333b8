import { describe, expect, it } from "vitest";
import { isError } from "../findings/index.ts";
import { readJob } from "../job/index.ts";
import { dist, type Vec } from "../space/index.ts";
import { allFindings, placedPoints, planJob } from "./index.ts";

const MARKS: Readonly<Record<string, Vec>> = {
  a: [0, 0, 0],
  b: [2000, 0, 0],
  c: [0, 1500, 0],
  d: [2000, 1500, 100],
};
const UP: Readonly<Record<string, Vec>> = { p: [700, 600, 900], q: [1500, 900, 800] };
const at = (id: string): Vec => (MARKS[id] ?? UP[id])!;
const tape = (from: string, to: string, over = 0) => ({
  tape: [from, to],
  length: dist(at(from), at(to)) + over,
});
const tapes = (to: string) => Object.keys(MARKS).map((from) => tape(from, to));

const BARS = {
  ridge: { tube: "t", path: [{ point: "p" }, { point: "q" }] },
  strut: { tube: "t", path: [{ on: "ridge", along: 300 }, [700, 600, 100]] },
  far: {
    tube: "t",
    path: [
      [0, -500, 0],
      [0, -500, 500],
    ],
  },
};

const jobOf = (doc: object) => {
  const read = readJob({
    format: "tubewright job",
    version: 2,
    tubes: { t: { od: 40, wall: 2 } },
    points: { ...MARKS, p: {}, q: {} },
    bars: BARS,
    ...doc,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.job;
};
const planOf = (doc: object) => planJob(jobOf(doc));
const codes = (plan: ReturnType<typeof planOf>) => plan.findings.map((f) => f.code);
const length = (plan: ReturnType<typeof planOf>, id: string) => plan.byId.get(id)!.bar.centreline.length;

describe("bars on measured points", () => {
  it("stand where the readings put unknown points, and say so", () => {
    const plan = planOf({ readings: [...tapes("p"), ...tapes("q")] });
    expect(dist(plan.byId.get("ridge")!.bar.centreline.finish, at("q"))).toBeLessThan(1e-4);
    expect(length(plan, "ridge")).toBeCloseTo(dist(at("p"), at("q")), 4);
    expect(plan.findings).toEqual([
      {
        code: "bar-on-adjusted",
        place: "bars.ridge",
        bar: "ridge",
        values: { points: { list: [{ point: "p" }, { point: "q" }] } },
      },
    ]);
    expect(plan.job.points.p!.at).toBeUndefined();
  });

  it("and the points themselves stand there with their errors; one that is free stands nowhere", () => {
    const given = { ...MARKS, p: {}, q: {}, seat: { at: [1, 2, 3], sd: [1, 2, 0] } };
    const plan = planOf({ points: given, readings: tapes("p") });
    const { a, p, q, seat } = placedPoints(plan.places);
    expect(a).toEqual({ at: at("a") });
    expect(dist(p!.at, at("p"))).toBeLessThan(1e-4);
    expect(p!.covariance).toEqual(plan.places.survey!.points.get("p")!.covariance);
    expect(q).toBeUndefined();
    expect(seat!.covariance!.map((row, k) => Math.sqrt(row[k]!))).toEqual([1, 2, 0]);
  });

  it("have no geometry while a point is free; what lands on them neither; the others are answered", () => {
    for (const readings of [[...tapes("p"), tape("a", "q"), tape("b", "q")], []]) {
      const plan = planOf({ readings });
      expect([...plan.byId.keys()]).toEqual(["far"]);
      const [unplaced] = plan.findings.filter((f) => f.code === "point-unplaced" && f.values.point);
      expect(unplaced).toMatchObject({ bar: "ridge" });
      expect(plan.findings.filter((f) => f.bar === "strut").map((f) => f.code)).toEqual([
        "host-without-geometry",
      ]);
      expect(plan.findings.some(isError)).toBe(true);
    }
  });

  it("a place given with an error takes part with it; one that no reading touches, or an exact one, stands as given", () => {
    const points = { ...MARKS, p: { at: [705, 590, 905], sd: 8 }, q: { at: [1500, 903, 800], sd: 3 } };
    const plan = planOf({ points, readings: tapes("p") });
    const { start, finish } = plan.byId.get("ridge")!.bar.centreline;
    expect(dist(start, plan.places.survey!.points.get("p")!.at)).toBe(0);
    expect(dist(start, at("p"))).toBeLessThan(0.2);
    expect(finish).toEqual([1500, 903, 800]);
    expect(plan.findings[0]!.values).toEqual({ points: { list: [{ point: "p" }] } });
    const exact = planOf({ points: { ...MARKS, p: [705, 590, 905], q: at("q") }, readings: tapes("p") });
    expect(exact.byId.get("ridge")!.bar.centreline.start).toEqual([705, 590, 905]);
    expect(codes(exact)).not.toContain("bar-on-adjusted");
  });

  it("a slip counts until it is struck out, and the bar says what it costs", () => {
    const readings = [...tapes("p"), { height: "p", z: 900 }, ...tapes("q"), tape("p", "q")];
    readings[0] = tape("a", "p", 40);
    const plan = planOf({ readings });
    const { points, cleaned, suspects } = plan.places.survey!;
    expect(suspects.map((s) => s.index)).toEqual([0]);
    expect(plan.byId.get("ridge")!.bar.centreline.start).toEqual(points.get("p")!.at);
    const doubtful = plan.byId.get("ridge")!.findings.find((f) => f.code === "bar-on-doubtful")!;
    const off = dist(points.get("p")!.at, cleaned.points.get("p")!.at);
    expect(off).toBeGreaterThan(5);
    expect(doubtful.values.off).toEqual({ mm: off });
    readings[0] = { ...readings[0], struck: true } as (typeof readings)[0];
    const struck = planOf({ readings });
    expect(dist(struck.byId.get("ridge")!.bar.centreline.start, at("p"))).toBeLessThan(1e-4);
    expect(codes(struck)).not.toContain("bar-on-doubtful");
  });

  it("a bar on a point with a mirror image says what settles it", () => {
    const readings = ["a", "b", "c"].flatMap((m) => [tape(m, "p"), tape(m, "q")]);
    const plan = planOf({ readings });
    const own = plan.byId.get("ridge")!.findings.filter((f) => f.code === "bar-on-mirrored");
    expect(own.map((f) => f.values.point)).toEqual([{ point: "p" }, { point: "q" }]);
    expect(own[0]!.values.settle).toEqual({ phrase: "take-height", values: { point: { point: "p" } } });
  });

  it("a mirrored bar and a landing toward a point stand on them too", () => {
    const bars = {
      ...BARS,
      twin: { mirrorOf: "ridge" },
      toward: { tube: "t", path: [{ on: "far", toward: { point: "p" } }, { point: "p" }] },
      post: { tube: "t", path: [{ point: "p", by: [0, 0, 50] }, { step: [0, 0, 9] }] },
    };
    const plan = planOf({ bars, readings: [...tapes("p"), ...tapes("q")] });
    expect(plan.byId.get("twin")!.bar.centreline.start[1]).toBeCloseTo(-600, 4);
    expect(plan.byId.get("twin")!.findings.map((f) => f.code)).toContain("bar-on-adjusted");
    expect(plan.byId.get("post")!.bar.centreline.finish[2]).toBeCloseTo(959, 4);
    const without = planOf({ bars, readings: [] });
    const why = (id: string) => without.findings.filter((f) => f.bar === id).map((f) => f.code);
    expect(why("toward")).toEqual(["point-unplaced", "point-unplaced"]);
    expect(why("post")).toEqual(["point-unplaced"]);
  });
});

describe("a tape held on a bar that stands on a measured point", () => {
  const bars = { ...BARS, stay: { tube: "t", path: [{ point: "a" }, { point: "p" }] } };
  const share = 600 / dist(at("a"), at("p"));
  const held: Vec = [700 * share, 600 * share, 900 * share];
  const fromStay = { tape: [{ bar: "stay", along: 600, over: "centre" }, "q"], length: dist(held, at("q")) };

  it("counts from where the bar comes to stand", () => {
    const readings = [...tapes("p"), tape("a", "q"), tape("b", "q"), fromStay, { height: "q", z: 800 }];
    const plan = planOf({ bars, readings });
    expect(dist(plan.byId.get("ridge")!.bar.centreline.finish, at("q"))).toBeLessThan(1e-3);
    expect(codes(plan)).not.toContain("survey-bar-missing");
    expect(codes(plan)).not.toContain("survey-bars-circle");
  });

  it("to that same point is left out, by name", () => {
    const own = { tape: [{ bar: "stay", along: 600 }, "p"], length: 5 };
    const plan = planOf({ bars, readings: [...tapes("p"), ...tapes("q"), own] });
    expect(plan.findings).toContainEqual({
      code: "survey-own-bar",
      place: "readings[8]",
      values: { host: { bar: "stay" }, point: { point: "p" } },
    });
    expect(dist(plan.byId.get("ridge")!.bar.centreline.start, at("p"))).toBeLessThan(1e-4);
  });

  it("and places that bar again by way of another point: what does not settle is told", () => {
    // Nothing but each other's bars holds p and q in height: every turn takes them farther.
    const ring = {
      stay: { tube: "t", path: [{ point: "a" }, { point: "p" }] },
      post: { tube: "t", path: [{ point: "b" }, { point: "q" }] },
    };
    const end = (bar: string) => ({ bar, along: -1, over: "centre" });
    const readings = [
      { out: "p", y: 600 },
      { fore: "p", x: 700 },
      { out: "q", y: 600 },
      { fore: "q", x: 900 },
      { tape: ["p", end("post")], length: 230 },
      { tape: ["q", end("stay")], length: 230 },
    ];
    const points = { ...MARKS, p: { at: [700, 600, 900], sd: 500 }, q: { at: [900, 600, 700], sd: 500 } };
    const plan = planOf({ bars: ring, points, readings });
    expect(codes(plan)).toContain("survey-bars-circle");
    expect(allFindings(plan).some((f) => f.code === "survey-bars-circle")).toBe(true);
  });
});

describe("an edit of a job with readings", () => {
  const readings = [...tapes("p"), ...tapes("q")];
  it("keeps the survey and every bar that it did not touch", () => {
    const before = planOf({ readings });
    const same = planJob(jobOf({ readings }), before);
    expect(same.places.survey).toBe(before.places.survey);
    expect(same.bars.every((b, i) => b === before.bars[i])).toBe(true);
    const moved = planJob(jobOf({ readings: readings.map((r) => ({ ...r, length: r.length + 1 })) }), before);
    expect(moved.places.survey).not.toBe(before.places.survey);
    expect(moved.byId.get("far")).toBe(before.byId.get("far"));
    expect(moved.byId.get("ridge")).not.toBe(before.byId.get("ridge"));
  });

  it("of a bar that a tape is held on figures the places anew, as from scratch", () => {
    const held = {
      tape: [{ bar: "far", along: 100, over: "centre" }, "q"],
      length: dist([0, -500, 100], at("q")),
    };
    const doc = { readings: [...tapes("p"), ...tapes("q"), held] };
    const moved = {
      ...doc,
      bars: {
        ...BARS,
        far: {
          tube: "t",
          path: [
            [0, -505, 0],
            [0, -505, 500],
          ],
        },
      },
    };
    const after = planJob(jobOf(moved), planOf(doc));
    expect(after.places.survey!.points).toEqual(planOf(moved).places.survey!.points);
    expect(after.places.survey!.points).not.toEqual(planOf(doc).places.survey!.points);
  });
});
