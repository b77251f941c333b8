import { describe, expect, test } from "vitest";
import {
  angleToSet,
  bendPlan,
  type CheckCode,
  calibrate,
  checksAfter,
  fromOwnEnds,
  turnsOf,
} from "../../src/core/bend/index.ts";
import { deg, rad } from "../../src/core/numeric/index.ts";
import { dist, type Vec } from "../../src/core/space/index.ts";
import { type BarOptions, barThrough, cornersOf, type Listed, NO_BACK } from "../support/bend.ts";

/** Bar and plan of a bender's list. */
function made(list: readonly Listed[], last: number, options: BarOptions = {}) {
  const bar = barThrough(cornersOf(list, last, options.clr ?? 135), options);
  return { bar, plan: bendPlan(bar, NO_BACK) };
}

/** The check sizes after the last bend. */
function checksOf(list: readonly Listed[], last: number, options: BarOptions = {}): Map<CheckCode, number> {
  const after = checksAfter(made(list, last, options).bar, NO_BACK);
  return new Map(after[after.length - 1]!.checks.map((c) => [c.what, c.value]));
}

/** Sum of the lengths between corners. */
const cornerToCorner = (nodes: readonly Vec[]): number =>
  nodes.slice(1).reduce((sum, node, i) => sum + dist(node, nodes[i]!), 0);

describe("textbook bend tables", () => {
  // Tangent length R·tan(θ/2) and arc R·θ per unit of R, as any pipe-bend table prints them to 6 places.
  test.each([
    [15, 0.131652, 0.261799],
    [22.5, 0.198912, 0.392699],
    [30, 0.267949, 0.523599],
    [45, 0.414214, 0.785398],
    [60, 0.57735, 1.047198],
    [90, 1, 1.570796],
    [120, 1.732051, 2.094395],
  ])("%d°: tangent %d, arc %d", (angle, tangent, arc) => {
    const out: Vec = [4000 + 2000 * Math.cos(rad(angle)), 2000 * Math.sin(rad(angle)), 0];
    const bar = barThrough([[0, 0, 0], [4000, 0, 0], out], { clr: 1000 });
    const plan = bendPlan(bar, NO_BACK);
    expect((4000 - plan.bends[0]!.start) / 1000).toBeCloseTo(tangent, 6);
    expect((plan.length - plan.bends[0]!.start - plan.lastStraight) / 1000).toBeCloseTo(arc, 6);
  });

  // 10 in pipe (OD 10.75 in), R 15 in, 38°: outside arc 13 1/2 in, inside 6 3/8 in; the page prints to an eighth.
  // ajgest.substack.com, issue #14.
  test("10 in pipe, 38°: outside arc 13 1/2, inside 6 3/8", () => {
    const list: Listed[] = [[20, 0, 38]];
    const outside = checksOf(list, 20, { od: 10.75, clr: 15 }).get("round-outside")!;
    const { plan } = made(list, 20, { od: 10.75, clr: 15 });
    const onCentre = plan.length - 40;
    expect(Math.abs(outside - 13.5)).toBeLessThan(1 / 16);
    expect(Math.abs(2 * onCentre - outside - 6.375)).toBeLessThan(1 / 16);
    expect(outside).toBeCloseTo(13.513, 3);
    expect(2 * onCentre - outside).toBeCloseTo(6.384, 3);
  });

  // 8 in offset at 20°: travel 23 3/8 in. Same page.
  test("8 in offset at 20°: travel 23 3/8", () => {
    const travel = 8 / Math.sin(rad(20));
    const run = travel * Math.cos(rad(20));
    const bar = barThrough(
      [
        [0, 0, 0],
        [30, 0, 0],
        [30 + run, 8, 0],
        [60 + run, 8, 0],
      ],
      { od: 2, clr: 6 },
    );
    const { bends } = bendPlan(bar, NO_BACK);
    expect(deg(bends[0]!.angle)).toBeCloseTo(20, 9);
    const tangent = 6 * Math.tan(rad(10));
    expect(Math.abs(bends[1]!.straightBefore + 2 * tangent - 23.375)).toBeLessThan(1 / 32);
    const offset = checksAfter(bar, NO_BACK)[1]!.checks.find((c) => c.what === "parallel-legs")!.value - 2;
    expect(offset).toBeCloseTo(8, 9);
  });

  // Rolling offset: rise 30 5/8 in, roll 17 5/8 in, 45° fittings: true offset 35 3/8 in, travel about 50 in.
  // 602apprentice.blogspot.com/2011/01/rolling-offsets.html (its last subtraction, 50 − 6 = 46, is a slip and unused).
  test("rolling offset 30 5/8 by 17 5/8: true offset 35 3/8, travel about 50", () => {
    const [rise, roll] = [30.625, 17.625];
    const run = Math.hypot(rise, roll);
    const bar = barThrough(
      [
        [0, 0, 0],
        [40, 0, 0],
        [40 + run, roll, rise],
        [80 + run, roll, rise],
      ],
      { od: 2, clr: 6 },
    );
    const plan = bendPlan(bar, NO_BACK);
    for (const b of plan.bends) expect(deg(b.angle)).toBeCloseTo(45, 9);
    expect(plan.bends[1]!.rotation).toBe(Math.PI);
    const offset = checksAfter(bar, NO_BACK)[1]!.checks.find((c) => c.what === "parallel-legs")!.value - 2;
    expect(Math.abs(offset - 35.375)).toBeLessThan(1 / 16);
    expect(offset).toBeCloseTo(35.3346, 4);
    const travel = plan.bends[1]!.straightBefore + 2 * 6 * Math.tan(rad(22.5));
    expect(Math.abs(travel - 50)).toBeLessThan(1 / 16);
    expect(travel).toBeCloseTo(49.971, 3);
  });

  // 60° fittings, 12 in offset: run .5774 × 12 = 6.9288, travel 1.1547 × 12 = 13.8564: the page's factors have four
  // places, so its answers are good to 12 × 0.00005. jkworthy.com/plumbing/page3.html.
  test("60° fittings, 12 in offset over a run of 6.9288: travel 13.8564", () => {
    const nodes: Vec[] = [
      [0, 0, 0],
      [20, 0, 0],
      [20 + 6.9288, 12, 0],
      [40 + 6.9288, 12, 0],
    ];
    const { bends } = bendPlan(barThrough(nodes, { od: 1, clr: 3 }), NO_BACK);
    expect(deg(bends[0]!.angle)).toBeCloseTo(60, 2);
    const travel = bends[1]!.straightBefore + 2 * 3 * Math.tan(bends[0]!.angle / 2);
    expect(Math.abs(travel - 13.8564)).toBeLessThan(0.0006);
  });
});

describe("corner coordinates to a bender's list", () => {
  // Input set of freemathhelp.com thread 111090 (no answer printed there); answers by independent computation.
  test("planar Z: two bends of 90°, half a turn between", () => {
    const nodes: Vec[] = [
      [38.5202, -14.0264, 0],
      [45.3142, -14.0264, 0],
      [45.3142, -17.5214, 0.9654],
      [48.6822, -17.5214, 0.9654],
    ];
    const clr = 1.5;
    const { bends, lastStraight } = bendPlan(barThrough(nodes, { od: 0.5, clr }), NO_BACK);
    expect(bends.map((b) => deg(b.angle))).toEqual([expect.closeTo(90, 9), expect.closeTo(90, 9)]);
    expect(bends[1]!.rotation).toBe(Math.PI);
    expect(bends[0]!.straightBefore + clr).toBeCloseTo(6.794, 9);
    expect(bends[1]!.straightBefore + 2 * clr).toBeCloseTo(3.625882, 6);
    expect(lastStraight + clr).toBeCloseTo(3.368, 9);
  });

  // Worked by an independent script: straights, angles, rotation, developed length.
  test.each<[string, Vec[], number, number[], number[], number, number]>([
    [
      "hoop",
      [
        [0, 600, 0],
        [0, 600, 900],
        [0, -600, 900],
        [0, -600, 0],
      ],
      135,
      [765, 930, 765],
      [90, 90],
      0,
      2884.115,
    ],
    [
      "corner in space",
      [
        [0, 0, 0],
        [500, 0, 0],
        [500, 400, 0],
        [500, 400, 300],
      ],
      100,
      [400, 200, 200],
      [90, 90],
      90,
      1114.1593,
    ],
    [
      "free bar",
      [
        [0, 0, 0],
        [600, 0, 0],
        [1100, 300, 120],
        [1500, 300, 500],
      ],
      115,
      [566.0758, 517.7022, 508.0359],
      [32.8713, 41.6037],
      105.609,
      1741.295,
    ],
  ])("%s", (_, nodes, clr, straights, angles, rotation, length) => {
    const plan = bendPlan(barThrough(nodes, { od: 38, clr }), NO_BACK);
    const all = [...plan.bends.map((b) => b.straightBefore), plan.lastStraight];
    all.forEach((s, i) => {
      expect(s).toBeCloseTo(straights[i]!, 4);
    });
    plan.bends.forEach((b, i) => {
      expect(deg(b.angle)).toBeCloseTo(angles[i]!, 4);
    });
    expect(deg(plan.bends[1]!.rotation)).toBeCloseTo(rotation, 4);
    expect(plan.length).toBeCloseTo(length, 4);
    expect(plan.blank).toBe(plan.length);
    expect(plan.bends[0]!.mark).toBeCloseTo(straights[0]!, 4);
    expect(plan.bends[1]!.markB).toBeCloseTo(straights[2]!, 4);
  });
});

describe("common practice, no source, as numbers of an independent script", () => {
  const U = (first: number, between: number): Listed[] => [
    [first, 0, 90],
    [between, 0, 90],
  ];

  test("U bar 900 outside, legs 420: marks 262.5 from their own ends, the second at 1059.558 if fed one way", () => {
    // Straights by the trade's own sums: W − d − 2C and A − d/2 − C.
    const { bar, plan } = made(U(420 - 22.5 - 135, 900 - 45 - 270), 420 - 22.5 - 135);
    expect(plan.bends[1]!.straightBefore).toBeCloseTo(585, 9);
    expect(plan.length).toBeCloseTo(1534.115, 3);
    expect(fromOwnEnds(plan)!.A).toBeCloseTo(262.5, 9);
    expect(fromOwnEnds(plan)!.B).toBeCloseTo(262.5, 9);
    expect(plan.bends[1]!.mark).toBeCloseTo(1059.558, 3);
    const after = checksAfter(bar, NO_BACK);
    const get = (i: number, what: CheckCode): number => after[i]!.checks.find((c) => c.what === what)!.value;
    expect(get(0, "leg-A")).toBeCloseTo(420, 9);
    expect(get(1, "leg-B")).toBeCloseTo(420, 9);
    expect(get(1, "parallel-legs")).toBeCloseTo(900, 9);
  });

  test("unequal legs 420 and 505: 262.5 and 347.5, L 1619.115, the straight's middle 42.5 off the tube's", () => {
    const { plan } = made(U(262.5, 585), 505 - 22.5 - 135);
    const own = fromOwnEnds(plan)!;
    expect(own.A).toBeCloseTo(262.5, 9);
    expect(own.B).toBeCloseTo(347.5, 9);
    expect(plan.length).toBeCloseTo(1619.115, 3);
    const middle = (plan.bends[1]!.start + plan.bends[1]!.start - 585) / 2;
    expect(plan.length / 2 - middle).toBeCloseTo(42.5, 9);
  });

  test("a tape round the outside reads 35.34 long for a bend of 90° on 45, 70.69 for two", () => {
    const one = checksOf([[300, 0, 90]], 300).get("round-outside")! - 135 * rad(90);
    expect(one).toBeCloseTo(35.34, 2);
    const after = checksAfter(made(U(300, 585), 300).bar, NO_BACK);
    const two = after.reduce((sum, a) => sum + a.checks.find((c) => c.what === "round-outside")!.value, 0);
    expect(two - 270 * rad(90)).toBeCloseTo(70.69, 2);
    expect(two - 270 * rad(90)).toBeCloseTo(45 * (Math.PI / 2), 9);
  });

  test.each([
    [15, 0.203],
    [30, 1.66],
    [45, 5.809],
    [60, 14.513],
    [90, 57.942],
  ])("corner to corner reads longer than the tube by a bend of %d° on 135: %d", (angle, gain) => {
    const nodes = cornersOf([[300, 0, angle]], 300, 135);
    expect(cornerToCorner(nodes) - bendPlan(barThrough(nodes), NO_BACK).length).toBeCloseTo(gain, 3);
  });

  test("1240 outside over two 45s is 1195 between centres, 1150 clear", () => {
    const nodes: Vec[] = [
      [0, 0, 0],
      [600, 0, 0],
      [600, 1195, 0],
      [0, 1195, 0],
    ];
    const last = checksAfter(barThrough(nodes), NO_BACK)[1]!;
    const outside = last.checks.find((c) => c.what === "parallel-legs")!.value;
    expect(outside).toBeCloseTo(1240, 9);
    expect(outside - 90).toBeCloseTo(1150, 9);
  });

  test("each corner ½° open over legs of 400 opens the mouth 6.98", () => {
    const mouth = (open: number): number => {
      const a = rad(90 + open);
      const nodes: Vec[] = [
        [400 * Math.cos(a), 400 * Math.sin(a), 0],
        [0, 0, 0],
        [855, 0, 0],
        [855 - 400 * Math.cos(a), 400 * Math.sin(a), 0],
      ];
      const last = checksAfter(barThrough(nodes), NO_BACK)[1]!;
      return last.checks.find((c) => c.what === "end-to-end")!.value;
    };
    expect(mouth(0.5) - mouth(0)).toBeCloseTo(6.98, 2);
    // 3 mm a side over 400 is 0.430°.
    expect((mouth(0.4297) - mouth(0)) / 2).toBeCloseTo(3, 3);
  });

  test("chord of 400 and 400 square: 565.685; 1 mm of it is 0.2026°", () => {
    const chord = (angle: number): number => {
      const nodes: Vec[] = [
        [-400, 0, 0],
        [0, 0, 0],
        [400 * Math.cos(rad(angle)), 400 * Math.sin(rad(angle)), 0],
      ];
      return checksAfter(barThrough(nodes), NO_BACK)[0]!.checks.find((c) => c.what === "end-to-end")!.value;
    };
    expect(chord(90)).toBeCloseTo(565.685, 3);
    // The chord shortens as the bend closes; half a millimetre either way is half of it each.
    expect(chord(90 - 0.1013) - chord(90 + 0.1013)).toBeCloseTo(1, 3);
  });

  test.each([
    [60, 21.22, 38],
    [90, 12.43, 25],
    [60, 39.3, 92.3],
    [90, 16.13, 34.4],
  ])(
    "double kick on 120 with a straight of %d and two bends of %d°: offset %d",
    (straight, angle, offset) => {
      const checks = checksOf(
        [
          [200, 0, angle],
          [straight, 180, angle],
        ],
        200,
        { od: 40, clr: 120 },
      );
      expect(Math.abs(checks.get("parallel-legs")! - 40 - offset)).toBeLessThan(0.06);
    },
  );

  test("that kick uses 148.90 of tube over a run of 142.81", () => {
    const { bar, plan } = made(
      [
        [200, 0, 21.22],
        [60, 180, 21.22],
      ],
      200,
      { od: 40, clr: 120 },
    );
    expect(plan.length - 400).toBeCloseTo(148.9, 1);
    const { start, finish } = bar.centreline;
    expect(finish[0] - start[0] - 400).toBeCloseTo(142.81, 1);
  });

  test("1° out in the turn lifts the end 10.8 over 620", () => {
    const nodes: Vec[] = [
      [0, 0, 0],
      [500, 0, 0],
      [500, 400, 0],
      [500 + 620 * Math.cos(rad(1)), 400, 620 * Math.sin(rad(1))],
    ];
    const lift = checksAfter(barThrough(nodes), NO_BACK)[1]!.checks.find(
      (c) => c.what === "off-table",
    )!.value;
    expect(lift).toBeCloseTo(10.8, 1);
    const bar = barThrough(nodes);
    expect(deg(turnsOf(bar, "left")[0]!.amount)).toBeCloseTo(179, 9);
  });

  test("loop 420 × 360 on 75: bends of 360° together, length 1431.24 against 1560", () => {
    const nodes: Vec[] = [
      [210, 0, 0],
      [420, 0, 0],
      [420, 360, 0],
      [0, 360, 0],
      [0, 0, 0],
      [210, 0, 0],
    ];
    const bar = barThrough(nodes, { od: 25, clr: 75 });
    const plan = bendPlan(bar, NO_BACK);
    expect(plan.bends.reduce((sum, b) => sum + deg(b.angle), 0)).toBeCloseTo(360, 9);
    expect(plan.length).toBeCloseTo(1431.24, 2);
    expect(cornerToCorner(nodes)).toBe(1560);
    const end = checksAfter(bar, NO_BACK)[3]!.checks.find((c) => c.what === "end-to-end")!.value;
    expect(end).toBeCloseTo(0, 9);
  });

  test("two test bends 30 → 27.6, 90 → 86.1: k 0.975, c −1.65, for 14 set 16.05; legs of 330 to the corner: 139.79", () => {
    const leg = 330 + 22.5 * Math.tan(rad(45));
    const tests = [
      { set: 30, got: 27.6 },
      { set: 90, got: 86.1 },
      { set: 94, got: 90, legs: [leg, leg] as const, stick: 600 },
    ];
    const card = calibrate(tests.slice(0, 2), { od: 45, clr: 135 });
    expect(card.springback!.k.value).toBeCloseTo(0.975, 9);
    expect(card.springback!.c.value).toBeCloseTo(-1.65, 9);
    const set = angleToSet({ od: 45, clr: 135, tests: tests.slice(0, 2) }, rad(14));
    expect(deg(set.set)).toBeCloseTo(16.05, 2);
    expect(calibrate(tests.slice(2), { od: 45, clr: 135 }).radius!.clr.value).toBeCloseTo(139.79, 2);
  });
});
