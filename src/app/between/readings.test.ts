import { describe, expect, it } from "vitest";
import { placeAt } from "../../core/bar/index.ts";
import { readJob } from "../../core/job/index.ts";
import type { ResolvedBar } from "../../core/layout/types.ts";
import { deg, seeded } from "../../core/numeric/index.ts";
import { planJob } from "../../core/plan/index.ts";
import { angleBetween, cross, dot, len, neg, rejection, sub, type Vec } from "../../core/space/index.ts";
import { jobOfReadings, NEW_BAR, TUBE_1, TUBE_2, type TwoTubes } from "./readings.ts";

const base: TwoTubes = {
  od1: 45,
  wall1: 2.5,
  od2: 38,
  wall2: 2,
  od: 40,
  wall: 2,
  distance: 1180,
  tape: "over",
  reading1: 78,
  reading2: 96,
  twist: 0,
  trust: 1,
  show: { length: "mm", fraction: 16 },
};

function planned(r: TwoTubes) {
  const made = jobOfReadings(r);
  if (!made.ok) throw new Error(`${made.field}: ${made.why}`);
  const read = readJob(made.document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return { apart: made.apart, plan: planJob(read.job) };
}

/** How far a point lies from the straight line through `at` along `dir` (length 1). */
const off = (p: Vec, at: Vec, dir: Vec): number => len(cross(sub(p, at), dir));

/** Measured back from the job as one would with tape and angle finder: no formula of the conversion in it. */
function measured(r: TwoTubes) {
  const { plan } = planned(r);
  const [t1, t2, bar] = [TUBE_1, TUBE_2, NEW_BAR].map((id) => plan.byId.get(id)!.bar) as [
    ResolvedBar,
    ResolvedBar,
    ResolvedBar,
  ];
  const { start, finish } = bar.centreline;
  const u = placeAt(bar.centreline, 10).dir;
  const chalk = (host: ResolvedBar): Vec => placeAt(host.centreline, host.centreline.length / 2).dir;
  const at = (y: number): Vec => [start[0] + u[0] * y, start[1] + u[1] * y, start[2] + u[2] * y];
  /** Where the tape leaves the tube: by halving, outward from the middle. */
  const edge = (host: ResolvedBar, from: number, way: 1 | -1): number => {
    const [middle, dir] = [at(from), chalk(host)];
    let [lo, hi] = [0, 5 * host.tube.od];
    for (let i = 0; i < 80; i++) {
      const mid = (lo + hi) / 2;
      if (off(at(from + way * mid), middle, dir) < host.tube.od / 2) lo = mid;
      else hi = mid;
    }
    return from + way * lo;
  };
  const L = len(sub(finish, start));
  const flatten = (v: Vec): Vec => rejection(v, u);
  const [c1, c2] = [flatten(chalk(t1)), flatten(chalk(t2))];
  return {
    reading1: deg(angleBetween(u, chalk(t1))),
    reading2: deg(angleBetween(neg(u), chalk(t2))),
    twist: deg(Math.atan2(dot(u, cross(c1, c2)), dot(c1, c2))),
    over: edge(t2, L, 1) - edge(t1, 0, -1),
    between: edge(t2, L, -1) - edge(t1, 0, 1),
  };
}

describe("two tubes measured, as a job", () => {
  it("gives back every reading when it is measured again, seed 7", () => {
    const random = seeded(7);
    const upTo = (n: number): number => Math.round(random() * n * 100) / 100;
    for (let i = 0; i < 40; i++) {
      const r: TwoTubes = {
        ...base,
        od1: 25 + upTo(40),
        od2: 25 + upTo(40),
        distance: 900 + upTo(800),
        tape: i % 2 ? "over" : "between",
        reading1: 25 + upTo(130),
        reading2: 25 + upTo(130),
        twist: i % 3 ? upTo(300) - 150 : 0,
      };
      const found = measured(r);
      expect(found.reading1).toBeCloseTo(r.reading1, 4);
      expect(found.reading2).toBeCloseTo(r.reading2, 4);
      expect(found.twist, `twist ${r.twist}`).toBeCloseTo(r.twist, 3);
      expect(found[r.tape]).toBeCloseTo(r.distance as number, 3);
    }
  });

  it("square tubes: the middle is a diameter's half in, the long points stand where a saddle's do", () => {
    // A tube of radius r set square on one of radius R keeps √(R² − r²) at its long point (plane geometry).
    const { apart, plan } = planned({ ...base, od2: 45, reading1: 90, reading2: 90 });
    expect(apart).toBeCloseTo(1180 - 45, 9);
    expect(plan.byId.get(NEW_BAR)!.bend.blank).toBeCloseTo(apart - 2 * Math.sqrt(22.5 ** 2 - 20 ** 2), 3);
  });

  it("a notch stands off square by what its reading differs from 90°", () => {
    const { plan } = planned(base);
    for (const [end, reading] of [
      ["A", 78],
      ["B", 96],
    ] as const) {
      const { out } = plan.byId.get(NEW_BAR)!.copes[end].cope;
      const host = plan.byId.get(end === "A" ? TUBE_1 : TUBE_2)!.bar.centreline;
      expect(deg(Math.asin(Math.abs(dot(out, placeAt(host, 5).dir))))).toBeCloseTo(Math.abs(90 - reading), 5);
    }
  });

  it("swapping the two tubes changes nothing in the bar's length", () => {
    const one = planned({ ...base, twist: 25 }).plan.byId.get(NEW_BAR)!.bend.blank;
    const swapped: TwoTubes = {
      ...base,
      twist: 25,
      od1: base.od2,
      wall1: base.wall2,
      od2: base.od1,
      wall2: base.wall1,
      reading1: base.reading2,
      reading2: base.reading1,
    };
    expect(planned(swapped).plan.byId.get(NEW_BAR)!.bend.blank).toBeCloseTo(one, 3);
  });

  it("keeps lengths as typed, and reads inches", () => {
    const made = jobOfReadings({
      ...base,
      od: '1 1/2"',
      wall: "0.095 in",
      distance: "46 1/2 in",
      show: { length: "in", fraction: 16 },
    });
    expect(made).toMatchObject({
      ok: true,
      document: { tubes: { [NEW_BAR]: { od: '1 1/2"', wall: "0.095 in" } } },
    });
    if (made.ok) expect(readJob(made.document).ok).toBe(true);
  });

  it.each([
    ["wall1", { wall1: 30 }],
    ["od", { od: "x" }],
    ["reading1", { reading1: 8 }],
    ["reading2", { reading2: Number.NaN }],
    ["twist", { twist: 200 }],
    ["distance", { distance: 60 }],
    ["distance", { distance: -3 }],
  ] as const)("names %s where it cannot be", (field, change) => {
    const made = jobOfReadings({ ...base, ...change });
    expect(made).toMatchObject({ ok: false, field });
    expect(made.ok || made.why.length).toBeGreaterThan(5);
  });
});
