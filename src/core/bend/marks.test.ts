import { describe, expect, test } from "vitest";
import { barThrough, cornersOf, type Listed, NO_BACK } from "../../../tests/support/bend.ts";
import { placeAt } from "../bar/index.ts";
import { deg, rad, seeded } from "../numeric/index.ts";
import { dist, type Vec } from "../space/index.ts";
import { bendPlan, fromOwnEnds } from "./marks.ts";

const HOOP: readonly Vec[] = [
  [0, 600, 0],
  [0, 600, 900],
  [0, -600, 900],
  [0, -600, 0],
];

describe("marks", () => {
  test("trim, back, growth and the die's own mark each enter where they should", () => {
    const arc = 135 * (Math.PI / 2);
    const bar = barThrough(HOOP, { trim: { A: 30, B: 20 }, die: { arcFactor: 1.02, mark: 4 } });
    const plan = bendPlan(bar, { A: 7, B: 3 });
    const L = 2884.11501;
    expect(plan.length).toBeCloseTo(L, 4);
    expect(plan.blank).toBeCloseTo(L - 7 - 3 + 2 * 0.02 * arc, 4);
    expect(plan.trim).toEqual({ A: 30, B: 20 });
    const [one, two] = plan.bends as [(typeof plan.bends)[0], (typeof plan.bends)[0]];
    expect(one.mark).toBeCloseTo(30 - 7 + 765 + 4, 9);
    expect(two.mark).toBeCloseTo(30 - 7 + 765 + 1.02 * arc + 930 + 4, 9);
    expect(two.markB).toBeCloseTo(20 - 3 + 765 + 4, 9);
    expect(one.markB).toBeCloseTo(20 - 3 + 765 + 1.02 * arc + 930 + 4, 9);
    expect(plan.lastStraight).toBeCloseTo(765, 9);
  });

  test("the two marks of a bend and the tube that it uses make up the stick, seed 31", () => {
    const random = seeded(31);
    const upTo = (n: number): number => Math.round(random() * n * 1000) / 1000;
    for (let trial = 0; trial < 60; trial++) {
      const list = Array.from(
        { length: 1 + (trial % 4) },
        (): Listed => [40 + upTo(300), upTo(360) - 180, 2 + upTo(118)],
      );
      const arcFactor = 0.98 + upTo(0.04);
      const mark = upTo(10) - 5;
      const bar = barThrough(cornersOf(list, 150, 100), {
        clr: 100,
        die: { arcFactor, mark },
        trim: { A: upTo(40), B: upTo(40) },
      });
      const plan = bendPlan(bar, { A: upTo(30), B: upTo(30) });
      const stick = plan.blank + plan.trim.A + plan.trim.B;
      for (const b of plan.bends) {
        const used = arcFactor * b.clr * b.angle;
        expect(b.mark + b.markB - 2 * mark + used).toBeCloseTo(stick, 6);
      }
      for (let i = 1; i < plan.bends.length; i++) {
        const [before, b] = [plan.bends[i - 1]!, plan.bends[i]!];
        // Between two marks lies the tube of one bend and one straight.
        expect(b.mark - before.mark).toBeCloseTo(arcFactor * before.clr * before.angle + b.straightBefore, 6);
        expect(before.markB - b.markB).toBeCloseTo(arcFactor * b.clr * b.angle + b.straightBefore, 6);
      }
    }
  });

  test("slow twin: length by walking the centreline in small steps", () => {
    const list: Listed[] = [
      [200, 0, 40],
      [150, 70, 95],
      [120, -20, 30],
    ];
    const bar = barThrough(cornersOf(list, 180, 100), { clr: 100 });
    const plan = bendPlan(bar, NO_BACK);
    const n = 40000;
    let walked = 0;
    for (let i = 0; i < n; i++) {
      const at = (j: number): Vec => placeAt(bar.centreline, (plan.length * j) / n).at;
      walked += dist(at(i), at(i + 1));
    }
    expect(walked).toBeCloseTo(plan.length, 5);
    expect(plan.length).toBeCloseTo(200 + 150 + 120 + 180 + 100 * rad(40 + 95 + 30), 9);
  });

  test("a straight bar has a blank and no bends, with or without a die", () => {
    const {
      die: _,
      dieId: __,
      ...bar
    } = barThrough([
      [0, 0, 0],
      [1000, 0, 0],
    ]);
    const plan = bendPlan(bar, { A: 10, B: -2 });
    expect(plan).toEqual({
      length: 1000,
      blank: 992,
      trim: { A: 0, B: 0 },
      bends: [],
      small: [],
      lastStraight: 1000,
    });
  });

  test("the angle to set stands beside a bend only where something is known of the die", () => {
    expect(bendPlan(barThrough(HOOP), NO_BACK).bends[0]!.set).toBeUndefined();
    const known = bendPlan(barThrough(HOOP, { die: { springback: { k: 0.975, c: -1.65 } } }), NO_BACK);
    expect(deg(known.bends[0]!.set!.set)).toBeCloseTo(94, 9);
    const one = bendPlan(barThrough(HOOP, { die: { tests: [{ set: 93, got: 90 }] } }), NO_BACK);
    expect(one.bends[0]!.set).toMatchObject({ calibrated: false, basis: "ratio" });
  });

  test("half a turn is +180, none is +0", () => {
    const kick = bendPlan(
      barThrough(
        cornersOf(
          [
            [200, 0, 20],
            [200, -180, 20],
          ],
          200,
          135,
        ),
      ),
      NO_BACK,
    );
    expect(kick.bends[1]!.rotation).toBe(Math.PI);
    const hoop = bendPlan(barThrough(HOOP), NO_BACK);
    for (const b of hoop.bends) expect(Object.is(b.rotation, 0)).toBe(true);
  });
});

describe("marks from their own ends", () => {
  test("a bar of two bends has them, another has not", () => {
    const list: Listed[] = [
      [262.5, 0, 90],
      [585, 0, 90],
    ];
    const plan = bendPlan(barThrough(cornersOf(list, 347.5, 135)), NO_BACK);
    expect(fromOwnEnds(plan)!.A).toBeCloseTo(262.5, 9);
    expect(fromOwnEnds(plan)!.B).toBeCloseTo(347.5, 9);
    const one = bendPlan(barThrough(cornersOf([[262.5, 0, 90]], 300, 135)), NO_BACK);
    expect(fromOwnEnds(one)).toBeUndefined();
  });
});
