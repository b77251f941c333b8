import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  bendLimits,
  bendPlan,
  type Check,
  type ChecksAfter,
  checksAfter,
  fromOwnEnds,
  type Hand,
  turnedRound,
  turnsOf,
} from "../../src/core/bend/index.ts";
import type { End } from "../../src/core/job/types.ts";
import { rad } from "../../src/core/numeric/index.ts";
import { add, mirrored, scale, turn, unit, type Vec } from "../../src/core/space/index.ts";
import { type BarOptions, barThrough, cornersOf, type Listed } from "../support/bend.ts";

const SEED = 20240611;
const RUNS = 120;

const mm = (least: number, most: number) =>
  fc.integer({ min: least * 1000, max: most * 1000 }).map((i) => i / 1000);

/** A bar of one to four bends with everything that may stand on it; turns keep 0.1° off none and half a turn. */
const anyBar = fc
  .record({
    bends: fc.array(fc.tuple(mm(60, 400), mm(-179.9, 179.9), mm(2, 118)), { minLength: 1, maxLength: 4 }),
    last: mm(60, 400),
    trim: fc.record({ A: mm(0, 40), B: mm(0, 40) }),
    back: fc.record({ A: mm(-10, 30), B: mm(-10, 30) }),
    arcFactor: fc.integer({ min: 980, max: 1040 }).map((i) => i / 1000),
    mark: mm(-10, 10),
    fromEnd: fc.constantFrom<End>("A", "B"),
    side: fc.constantFrom<Hand>("left", "right"),
  })
  .map((bar) => ({
    ...bar,
    bends: bar.bends.map(([s, r, a]): Listed => [s, Math.abs(r) < 0.1 ? 0.1 : r, a]),
  }));

type Any = typeof anyBar extends fc.Arbitrary<infer T> ? T : never;

const OD = 38;
const CLR = 115;
const DIE = { clamp: 120, between: 150, tail: 200, maxAngle: 100, springback: { k: 0.976, c: -1.6 } };
const HEIGHT = 300;

const nodesOf = (bar: Any): Vec[] => cornersOf(bar.bends, bar.last, CLR);

function results(nodes: readonly Vec[], bar: Any, options: BarOptions = {}, k = 1, side = bar.side) {
  const long = { clamp: DIE.clamp * k, between: DIE.between * k, tail: DIE.tail * k, mark: bar.mark * k };
  const made = barThrough(nodes, {
    od: OD * k,
    clr: CLR * k,
    trim: { A: bar.trim.A * k, B: bar.trim.B * k },
    fromEnd: bar.fromEnd,
    ...options,
    die: { ...DIE, ...long, arcFactor: bar.arcFactor },
  });
  const back = { A: bar.back.A * k, B: bar.back.B * k };
  return withBack(made, back, side, k);
}

function withBack(made: ReturnType<typeof barThrough>, back: Record<End, number>, side: Hand, k = 1) {
  return {
    plan: bendPlan(made, back),
    turns: turnsOf(made, side),
    round: turnedRound(made, side),
    checks: checksAfter(made, back),
    limits: bendLimits(made, back, { height: HEIGHT * k, turnSide: side }),
  };
}

type Results = ReturnType<typeof results>;

/** Every number of a result, in order, angles and lengths apart. */
const angles = (r: Results): number[] => [
  ...r.plan.bends.flatMap((b) => [b.angle, Math.abs(b.rotation), b.set!.set]),
  ...r.turns.flatMap((t) => [t.amount, Math.abs(t.points.above)]),
];
const lengths = (r: Results): number[] => [
  r.plan.length,
  r.plan.blank,
  r.plan.trim.A,
  r.plan.trim.B,
  r.plan.lastStraight,
  ...r.plan.bends.flatMap((b) => [b.start, b.mark, b.markB, b.straightBefore, b.clr]),
  ...r.turns.map((t) => t.roundTube),
  ...r.checks.flatMap((c) => c.checks.map((x) => x.value)),
];
const said = (r: Results): unknown => [
  r.plan.bends.map((b) => b.n),
  r.turns.map((t) => [t.bend, t.last]),
  r.checks.map((c) => [c.bend, c.checks.map((x) => [x.what, x.across])]),
  r.limits.map((f) => [f.code, f.values.bend, f.values.first]),
];

function expectNear(a: readonly number[], b: readonly number[], within: number): void {
  expect(a.length).toBe(b.length);
  a.forEach((v, i) => {
    expect(Math.abs(v - b[i]!)).toBeLessThan(within);
  });
}

const law = (name: string, check: (bar: Any) => void): void => {
  test(`${name} (seed ${SEED})`, () => {
    fc.assert(fc.property(anyBar, check), { seed: SEED, numRuns: RUNS });
  });
};

describe("laws of the bender's card", () => {
  law("moving and turning the car changes nothing", (bar) => {
    const k = unit([0.3, -0.7, 0.4]);
    const moved = nodesOf(bar).map((p) => add(turn(p, k, 1.234), [1500, -720, 333]));
    const [one, two] = [results(nodesOf(bar), bar), results(moved, bar)];
    expectNear(angles(one), angles(two), 1e-9);
    expectNear(lengths(one), lengths(two), 1e-6);
    expect(said(two)).toEqual(said(one));
    expect(two.turns.map((t) => [t.way, t.points.side])).toEqual(
      one.turns.map((t) => [t.way, t.points.side]),
    );
  });

  law("the twin: lengths and angles stay, rotations and turns change hands", (bar) => {
    const [one, two] = [results(nodesOf(bar), bar), results(nodesOf(bar).map(mirrored), bar)];
    expectNear(angles(one), angles(two), 1e-9);
    expectNear(lengths(one), lengths(two), 1e-6);
    one.plan.bends.forEach((b, i) => {
      expect(Math.abs(b.rotation + two.plan.bends[i]!.rotation)).toBeLessThan(1e-9);
    });
    one.turns.forEach((t, i) => {
      const twin = two.turns[i]!;
      expect([t.way, twin.way].sort()).toEqual(["clockwise", "counter-clockwise"]);
      expect(Math.abs(t.points.above + twin.points.above)).toBeLessThan(1e-9);
      expect(twin.points.side).toBe(t.points.side);
    });
  });

  law(
    "the twin on a bender that turns to the other side hangs as high, and into the floor as little",
    (bar) => {
      const other = bar.side === "left" ? "right" : "left";
      const one = results(nodesOf(bar), bar);
      const two = results(nodesOf(bar).map(mirrored), bar, {}, 1, other);
      expect(said(two)).toEqual(said(one));
      one.turns.forEach((t, i) => {
        const twin = two.turns[i]!;
        expect(Math.abs(t.points.above - twin.points.above)).toBeLessThan(1e-9);
        if (t.points.side) expect(twin.points.side).not.toBe(t.points.side);
      });
    },
  );

  law("the bar drawn from its other end is the same bar", (bar) => {
    const one = results(nodesOf(bar), bar);
    const swapped = barThrough([...nodesOf(bar)].reverse(), {
      od: OD,
      clr: CLR,
      trim: { A: bar.trim.B, B: bar.trim.A },
      fromEnd: bar.fromEnd === "A" ? "B" : "A",
      die: { ...DIE, mark: bar.mark, arcFactor: bar.arcFactor },
    });
    const two = withBack(swapped, { A: bar.back.B, B: bar.back.A }, bar.side);
    expect(Math.abs(one.plan.blank - two.plan.blank)).toBeLessThan(1e-6);
    const turned = [...two.plan.bends].reverse();
    one.plan.bends.forEach((b, i) => {
      expectNear([b.mark, b.markB, b.angle], [turned[i]!.markB, turned[i]!.mark, turned[i]!.angle], 1e-6);
      // Rotations keep their sign; that of bend n stands with the bend behind it.
      if (i > 0) expect(Math.abs(b.rotation - turned[i - 1]!.rotation)).toBeLessThan(1e-9);
    });
    // The same end is fed first, so turns and checks come in the same order.
    two.turns.forEach((t, i) => {
      const same = one.turns[i]!;
      expectNear([t.amount, t.points.above], [same.amount, same.points.above], 1e-9);
      expect([t.way, t.points.side]).toEqual([same.way, same.points.side]);
    });
    const swap = { "leg-A": "leg-B", "leg-B": "leg-A" } as Record<string, string>;
    const flat = (all: readonly ChecksAfter[]): Check[] => all.flatMap((c) => [...c.checks]);
    expectNear(
      flat(two.checks).map((c) => c.value),
      flat(one.checks).map((c) => c.value),
      1e-6,
    );
    expect(flat(two.checks).map((c) => c.what)).toEqual(flat(one.checks).map((c) => swap[c.what] ?? c.what));
    expect(two.limits.map((f) => f.code)).toEqual(one.limits.map((f) => f.code));
    const own = fromOwnEnds(one.plan);
    if (own) expectNear([own.A, own.B], [fromOwnEnds(two.plan)!.B, fromOwnEnds(two.plan)!.A], 1e-6);
  });

  law("feeding from the other end keeps the marks and every rotation's sign", (bar) => {
    const one = results(nodesOf(bar), bar, { fromEnd: "A" });
    const two = results(nodesOf(bar), bar, { fromEnd: "B" });
    expect(two.plan).toEqual(one.plan);
    expect(two.turns.map((t) => [t.way, t.amount.toFixed(9)]).reverse()).toEqual(
      one.turns.map((t) => [t.way, t.amount.toFixed(9)]),
    );
    expect(two.checks.map((c) => c.bend).reverse()).toEqual(one.checks.map((c) => c.bend));
    // Once all is bent, the bar is the same whichever end went first.
    const whole = (r: Results): number =>
      r.checks[r.checks.length - 1]!.checks.find((c) => c.what === "end-to-end")!.value;
    expect(Math.abs(whole(one) - whole(two))).toBeLessThan(1e-6);
  });

  for (const k of [25.4, 0.01]) {
    law(`all of it ${k} times as large: lengths so many times, angles the same`, (bar) => {
      const one = results(nodesOf(bar), bar);
      const two = results(
        nodesOf(bar).map((p) => scale(p, k)),
        bar,
        {},
        k,
      );
      expectNear(angles(one), angles(two), 1e-8);
      expectNear(
        lengths(one).map((v) => v * k),
        lengths(two),
        1e-7 * Math.max(1, k),
      );
    });
  }

  law("trim moves marks and never the blank; back moves both", (bar) => {
    const made = (trim: number) => results(nodesOf(bar), bar, { trim: { A: trim, B: 0 } }).plan;
    expect(made(25).blank).toBe(made(0).blank);
    made(25).bends.forEach((b, i) => {
      expect(Math.abs(b.mark - made(0).bends[i]!.mark - 25)).toBeLessThan(1e-9);
      expect(b.markB).toBe(made(0).bends[i]!.markB);
    });
    const backed = results(nodesOf(bar), { ...bar, back: { A: bar.back.A + 7, B: bar.back.B } }).plan;
    const plain = results(nodesOf(bar), bar).plan;
    expect(Math.abs(plain.blank - backed.blank - 7)).toBeLessThan(1e-9);
    backed.bends.forEach((b, i) => {
      expect(Math.abs(plain.bends[i]!.mark - b.mark - 7)).toBeLessThan(1e-9);
    });
  });

  law("turned round, the bend made stands as far to the other side of level", (bar) => {
    const one = results(nodesOf(bar), bar);
    for (const t of one.turns) {
      expect(t.amount).toBeLessThan(rad(180));
      expect(t.roundTube).toBeCloseTo((OD / 2) * t.amount, 9);
      expect(Math.abs(t.points.above)).toBeLessThanOrEqual(Math.PI / 2);
    }
    if (one.round && one.turns[0]) {
      // Seen from the other end the same leg stands as far to the other side of level.
      expect(Math.abs(one.round.above + one.turns[0].points.above)).toBeLessThan(1e-9);
    }
  });
});
