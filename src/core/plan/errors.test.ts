import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readJob } from "../job/index.ts";
import { normal, seeded } from "../numeric/index.ts";
import { dist, type Vec } from "../space/index.ts";
import { barErrors, budget, placeErrors, planJob } from "./index.ts";

const MARKS: Readonly<Record<string, Vec>> = {
  a: [0, 0, 0],
  b: [2000, 0, 0],
  c: [0, 1500, 0],
  d: [2000, 1500, 100],
};
const UP: Readonly<Record<string, Vec>> = { p: [700, 600, 900], q: [1500, 900, 800] };
const at = (id: string): Vec => (MARKS[id] ?? UP[id])!;
type Taped = { tape: [string, string]; length: number; sd?: number };
const tape = (from: string, to: string, sd?: number): Taped => ({
  tape: [from, to],
  length: dist(at(from), at(to)),
  ...(sd === undefined ? {} : { sd }),
});
const READINGS = [..."abcd"].flatMap((m) => [tape(m, "p"), tape(m, "q")]).concat(tape("p", "q", 0.5));
const HEIGHTS = [
  { height: "p", z: 900 },
  { slope: ["p", "q"], angle: (Math.atan2(-100, Math.hypot(800, 300)) * 180) / Math.PI },
];

const planOf = (doc: object) => {
  const read = readJob({
    format: "tubewright job",
    version: 2,
    tubes: { t: { od: 40, wall: 2 } },
    dies: { d: { od: 40, clr: 120 } },
    points: { ...MARKS, p: {}, q: { at: at("q"), sd: 20 } },
    bars: {
      ridge: { tube: "t", path: [{ point: "p" }, { point: "q" }] },
      bent: { tube: "t", die: "d", path: [[0, 0, 0], [100, 500, 900], { point: "q" }] },
      strut: { tube: "t", path: [{ on: "ridge", along: 300 }, [700, 600, 100]] },
      far: {
        tube: "t",
        path: [
          [0, -500, 0],
          [0, -500, 500],
        ],
      },
    },
    ...doc,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return planJob(read.job);
};
const length = (plan: ReturnType<typeof planOf>, id: string) => plan.byId.get(id)!.bar.centreline.length;

const ofTwo = (phrase: string) => (from: string, to: string) => ({
  phrase,
  values: { from: { point: from }, to: { point: to } },
});
const [aTape, aSlope] = [ofTwo("the-tape"), ofTwo("the-slope")];

describe("errors that come from the readings", () => {
  const plan = planOf({ readings: [...READINGS, ...HEIGHTS] });
  const errors = placeErrors(plan);

  it("name the reading that a length hangs on most: moved by 1 mm, it moves the length by what is said", () => {
    const { source } = errors.get("ridge")!;
    expect(source).toMatchObject({ name: aTape("p", "q"), reading: 8, unit: "mm" });
    expect(source!.share).toBeGreaterThan(0.8);
    for (const id of ["ridge", "bent", "strut"]) {
      const { reading, per } = errors.get(id)!.source!;
      const moved = [...READINGS, ...HEIGHTS].map((r, i) =>
        i === reading && "length" in r ? { ...r, length: r.length + 0.1 } : r,
      );
      const by = (length(planOf({ readings: moved }), id) - length(plan, id)) / 0.1;
      expect(Math.abs(by)).toBeCloseTo(per, 2);
    }
    expect(errors.get("far")!.source).toBeUndefined();
  });

  it("an angle finder's reading counts by the degree, a given place by its own coordinate", () => {
    const sloped = planOf({
      points: { ...MARKS, p: at("p"), q: { at: at("q"), sd: [0, 0, 500] } },
      readings: [HEIGHTS[1]],
    });
    const { source } = placeErrors(sloped).get("bent")!;
    expect(source).toMatchObject({ name: aSlope("p", "q"), reading: 0, unit: "deg" });
    const given = placeErrors(
      planOf({ points: { ...MARKS, p: at("p"), q: { at: at("q"), sd: [0, 0, 3] } }, readings: [] }),
    );
    expect(given.get("ridge")!.source).toMatchObject({
      name: { phrase: "given-height", values: { point: { point: "q" } } },
      share: 1,
    });
  });

  it("match a shop that measures 300 times (seed 77): figures of the bars laid out on what it read", () => {
    const random = seeded(77);
    const off: Record<string, number> = { ridge: 0, bent: 0, strut: 0 };
    for (let n = 0; n < 300; n++) {
      const q = at("q").map((v) => v + 20 * normal(random)) as unknown as Vec;
      const readings = READINGS.map((r) => ({ ...r, length: r.length + (r.sd ?? 1) * normal(random) }));
      const heights = [
        { height: "p", z: 900 + normal(random) },
        { ...HEIGHTS[1]!, angle: (HEIGHTS[1] as { angle: number }).angle + 0.2 * normal(random) },
      ];
      const again = planOf({
        points: { ...MARKS, p: {}, q: { at: q, sd: 20 } },
        readings: [...readings, ...heights],
      });
      for (const id of Object.keys(off)) off[id]! += (length(again, id) - length(plan, id)) ** 2 / 300;
    }
    for (const [id, square] of Object.entries(off)) {
      const { length: stated, sampled } = errors.get(id)!;
      expect(Math.abs(Math.sqrt(square) / stated - 1)).toBeLessThan(0.12);
      expect(Math.abs(sampled!.length / stated - 1)).toBeLessThan(0.15);
    }
  });

  it("count what points have in common: taken each for itself the ridge would seem worse than its tape", () => {
    expect(errors.get("ridge")!.length).toBeLessThan(0.5);
    const { sd } = plan.places.survey!.points.get("q")!;
    expect(Math.max(...sd)).toBeGreaterThan(0.6);
  });
});

describe("the whole error budget", () => {
  const sampling = { samples: 200, seed: 4, confidence: 0.95 };

  it("a step at a time comes to the same as bar by bar, and counts up to all of them", () => {
    const plan = planOf({ readings: [...READINGS, ...HEIGHTS] });
    const steps = budget(plan, sampling);
    const seen: { done: number; of: number }[] = [];
    let step = steps.next();
    for (; !step.done; step = steps.next()) seen.push(step.value);
    const wanted = placeErrors(plan, { samples: 200, seed: 4 });
    expect(step.value).toEqual(plan.bars.map((b) => barErrors(plan, b, sampling, wanted.get(b.id))));
    expect(seen.map((s) => s.done)).toEqual(seen.map((_, i) => i + 1));
    expect(new Set(seen.map((s) => s.of))).toEqual(new Set([seen.length]));
    expect(seen.length).toBe(6 + 200 + plan.bars.length);
  });

  it("of a job whose places are exact takes one step a bar; left off it does no more", () => {
    const read = readJob(readFileSync("demo/sandling.json", "utf8"));
    if (!read.ok) throw new Error("the demo does not read");
    const plan = planJob(read.job);
    const steps = budget(plan, sampling, ["main-hoop", "nobody", "header-bar"]);
    expect(steps.next().value).toEqual({ done: 1, of: 3 });
    expect(steps.return([]).done).toBe(true);
    expect(steps.next().done).toBe(true);
    const two = budget(plan, sampling, ["main-hoop", "nobody", "header-bar"]);
    let step = two.next();
    while (!step.done) step = two.next();
    expect(step.value.map((e) => e.id)).toEqual(["main-hoop", "header-bar"]);
  });
});
