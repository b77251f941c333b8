import { describe, expect, test } from "vitest";
import { WRITER } from "../../../tests/support/bend.ts";
import { IDS, say } from "../../words/index.ts";
import { SEVERITY } from "../findings/codes.ts";
import { severityOf } from "../findings/index.ts";
import type { DieTest } from "../job/types.ts";
import { deg, normal, rad, seeded } from "../numeric/index.ts";
import { calibrate } from "./die.ts";
import { angleToSet } from "./springback.ts";

const D45 = { od: 45, clr: 135 };

/** A test bend without error on a die of true radius R and arc factor a, both straights 200. */
function exact(got: number, R: number, a: number, set = got): DieTest {
  const leg = 200 + (R + D45.od / 2) * Math.tan(rad(got) / 2);
  return { set, got, legs: [leg, leg], stick: 400 + a * R * rad(got) };
}

const codes = (tests: readonly DieTest[]): string[] => calibrate(tests, D45).findings.map((f) => f.code);

describe("springback", () => {
  // Invented sizes, computed by an independent script.
  const tests = [
    { set: 30, got: 27.6 },
    { set: 90, got: 86.1 },
  ];

  test("two bends: got = 0.975 set − 1.65; for 14 set 16.05", () => {
    const { springback, findings } = calibrate(tests, D45);
    expect(springback?.k.value).toBeCloseTo(0.975, 12);
    expect(springback?.c.value).toBeCloseTo(-1.65, 11);
    expect(springback?.basis).toBe("line");
    expect(findings).toEqual([]);
    const set = angleToSet({ ...D45, tests }, rad(14));
    expect(deg(set.set)).toBeCloseTo(16.0513, 4);
    expect(set.calibrated).toBe(true);
  });

  test("the ± of two bends: slope 0.5·√2/60, and it grows away from them", () => {
    const { springback } = calibrate(tests, D45);
    expect(springback?.k.sd).toBeCloseTo((0.5 * Math.SQRT2) / 60, 12);
    const sd = (want: number): number => deg(angleToSet({ ...D45, tests }, rad(want)).sd!);
    // At a bend that was tested it is the angle finder's own error, through the slope.
    expect(sd(27.6)).toBeCloseTo(0.5 / 0.975, 9);
    expect(sd(14)).toBeGreaterThan(sd(27.6));
    expect(sd(120)).toBeGreaterThan(sd(86.1));
    expect(sd(57)).toBeLessThan(sd(27.6));
  });

  test("one bend is taken in proportion, is not called calibrated, and says so: a plain ratio gives 14.63 for 14", () => {
    const one = [{ set: 90, got: 86.1 }];
    const set = angleToSet({ ...D45, tests: one }, rad(14));
    expect(deg(set.set)).toBeCloseTo(14.6341, 4);
    expect(set.calibrated).toBe(false);
    expect(set.basis).toBe("ratio");
    expect(codes(one)).toEqual(["die-springback-ratio"]);
  });

  test("settings too close for a slope are taken in proportion as well", () => {
    expect(
      codes([
        { set: 90, got: 86 },
        { set: 95, got: 91.3 },
      ]),
    ).toEqual(["die-springback-ratio"]);
    const far = calibrate(
      [
        { set: 90, got: 86 },
        { set: 106, got: 101.4 },
      ],
      D45,
    );
    expect(far.springback?.basis).toBe("line");
  });

  test("the shop's own errors widen the ± and change nothing else", () => {
    const die = { ...D45, tests };
    const [own, common] = [angleToSet(die, rad(120), { angle: 1, tape: 2 }), angleToSet(die, rad(120))];
    expect(own.sd! / common.sd!).toBeCloseTo(2, 9);
    expect(own.set).toBeCloseTo(common.set, 12);
    expect(own.basis).toBe("line");
    expect(calibrate(tests, D45, "tests", { angle: 3, tape: 1 }).springback?.basis).toBe("line");
  });

  test("a shop that states no error at all still gets an answer", () => {
    const card = calibrate([exact(90, 135, 1), exact(120, 135, 1)], D45, "tests", { angle: 0, tape: 0 });
    expect(card.radius?.clr.value).toBeCloseTo(135, 8);
    expect(card.radius?.clr.sd).toBeGreaterThan(0);
    expect(card.springback?.k.value).toBeCloseTo(1, 9);
  });

  test("what the job states goes before the tests; with neither the wanted angle is set, not calibrated", () => {
    const stated = angleToSet({ ...D45, springback: { k: 0.976, c: -1.6 }, tests }, rad(90));
    expect(deg(stated.set)).toBeCloseTo((90 + 1.6) / 0.976, 10);
    expect(stated.basis).toBe("stated");
    const none = angleToSet({ ...D45, tests: [] }, rad(90));
    expect(none).toEqual({ set: rad(90), calibrated: false, basis: "none" });
  });

  test("a bend off the line of the others is named, and a line that springs on is doubted", () => {
    const bad = calibrate(
      [
        { set: 30, got: 27.6 },
        { set: 60, got: 50 },
        { set: 90, got: 86.1 },
      ],
      D45,
    );
    const finding = bad.findings.find((f) => f.code === "die-tests-disagree")!;
    expect(say(finding, WRITER, IDS)).toContain("check test bend 2: it is 4.6° off");
    expect(
      codes([
        { set: 30, got: 27.6 },
        { set: 90, got: 68.1 },
      ]),
    ).toEqual(["die-springback-odd"]);
  });

  test("covariance matches what 4000 simulated shops get, seed 11", () => {
    const random = seeded(11);
    const sets = [30, 60, 90, 120];
    const said = calibrate(
      sets.map((set) => ({ set, got: 0.975 * set - 1.65 })),
      D45,
    ).springback!;
    const slopes = Array.from({ length: 4000 }, () => {
      const noisy = sets.map((set) => ({ set, got: 0.975 * set - 1.65 + 0.5 * normal(random) }));
      return calibrate(noisy, D45).springback!.k.value;
    });
    const mean = slopes.reduce((s, k) => s + k, 0) / slopes.length;
    const sd = Math.sqrt(slopes.reduce((s, k) => s + (k - mean) ** 2, 0) / slopes.length);
    expect(mean).toBeCloseTo(0.975, 3);
    expect(sd / said.k.sd).toBeGreaterThan(0.96);
    expect(sd / said.k.sd).toBeLessThan(1.04);
  });
});

describe("radius and arc factor", () => {
  // By an independent script: legs of 330 to the centreline corner, stick 600, 90° give 139.79.
  const leg = 330 + (45 / 2) * Math.tan(rad(45));
  const d7 = [{ set: 93.5, got: 90, legs: [leg, leg] as const, stick: 600 }];

  test("one bend gives the radius with an arc factor of 1, and says so", () => {
    const card = calibrate(d7, D45);
    expect(card.radius?.clr.value).toBeCloseTo(139.79, 2);
    expect(card.radius?.arcFactor).toBeUndefined();
    expect(codes(d7)).toContain("die-arc-one-test");
  });

  test.each([
    [90, 2.33],
    [120, 0.73],
    [150, 0.21],
  ])("1 mm in one leg of a bend of %d° moves the radius by %d mm", (got, moves) => {
    const card = calibrate([exact(got, 135, 1)], D45);
    expect(card.radius?.clr.value).toBeCloseTo(135, 9);
    expect(card.radius?.perMm.clr).toBeCloseTo(moves, 2);
    const { legs, stick } = exact(got, 135, 1);
    const off = calibrate([{ set: got, got, legs: [legs![0] + 1, legs![1]], stick: stick! }], D45);
    expect(off.radius!.clr.value - 135).toBeCloseTo(card.radius!.perMm.clr, 9);
  });

  test("what an arc factor of 1 costs is what a percent of it does", () => {
    const card = calibrate([exact(90, 135, 1.01)], D45);
    const note = card.findings.find((f) => f.code === "die-arc-one-test")!;
    const said = (note.values.perPercent as { readonly mm: number }).mm;
    // The tube used one percent more than assumed, so the radius found is that much too small.
    expect(135 - card.radius!.clr.value).toBeCloseTo(said, 0);
  });

  test("two bends well apart give both", () => {
    for (const [first, second, condition] of [
      [90, 120, 16],
      [30, 90, 27],
      [75, 90, 49],
    ] as const) {
      const card = calibrate([exact(first, 138, 1.012), exact(second, 138, 1.012)], D45);
      expect(card.radius?.clr.value).toBeCloseTo(138, 7);
      expect(card.radius?.arcFactor?.value).toBeCloseTo(1.012, 8);
      expect(Math.abs(card.radius!.condition - condition)).toBeLessThan(1);
    }
  });

  test.each([86, 78])("%d° and 90° are too close: the arc factor stays 1, and that is said", (near) => {
    const tests = [exact(near, 138, 1), exact(90, 138, 1)];
    const card = calibrate(tests, D45);
    expect(card.radius?.arcFactor).toBeUndefined();
    expect(card.radius?.clr.value).toBeCloseTo(138, 8);
    expect(codes(tests)).toContain("die-arc-angles-close");
  });

  test("on a small die the tape is too coarse for both at angles that would do on a large one", () => {
    const small = { od: 10, clr: 30 };
    const tests = [30, 90].map((got): DieTest => {
      const leg = 200 + 35 * Math.tan(rad(got) / 2);
      return { set: got, got, legs: [leg, leg], stick: 400 + 30 * rad(got) };
    });
    const card = calibrate(tests, small);
    expect(card.radius?.arcFactor).toBeUndefined();
    expect(card.radius?.clr.value).toBeCloseTo(30, 9);
    expect(card.findings.map((f) => f.code)).toContain("die-arc-angles-close");
  });

  test("a small bend alone gives no radius, and says why", () => {
    const tests = [exact(30, 135, 1)];
    expect(calibrate(tests, D45).radius).toBeUndefined();
    const finding = calibrate(tests, D45).findings.find((f) => f.code === "die-radius-untold")!;
    expect(say(finding, WRITER, IDS)).toContain("an error in one leg moves it 81.");
  });

  test("the ± is what 3000 simulated shops get, seed 12", () => {
    const random = seeded(12);
    const said = calibrate([exact(90, 135, 1), exact(120, 135, 1)], D45).radius!;
    const found = Array.from({ length: 3000 }, () => {
      const noisy = [90, 120].map((got): DieTest => {
        const { legs, stick } = exact(got, 135, 1);
        const e = (): number => normal(random);
        const read = got + 0.5 * e();
        return { set: 180, got: read, legs: [legs![0] + e(), legs![1] + e()], stick: stick! + e() };
      });
      return calibrate(noisy, D45).radius!;
    });
    const both = found.filter((f) => f.arcFactor);
    expect(both.length).toBeGreaterThan(2900);
    const scatter = (values: readonly number[]): number => {
      const mean = values.reduce((s, v) => s + v, 0) / values.length;
      return Math.sqrt(values.reduce((s, v) => s + (v - mean) ** 2, 0) / values.length);
    };
    expect(scatter(both.map((f) => f.clr.value)) / said.clr.sd).toBeGreaterThan(0.93);
    expect(scatter(both.map((f) => f.clr.value)) / said.clr.sd).toBeLessThan(1.07);
    expect(scatter(both.map((f) => f.arcFactor!.value)) / said.arcFactor!.sd).toBeGreaterThan(0.93);
    expect(scatter(both.map((f) => f.arcFactor!.value)) / said.arcFactor!.sd).toBeLessThan(1.07);
  });

  test("a radius that is not the die's is pointed out, legs that disagree are named", () => {
    expect(codes([exact(120, 145, 1)])).toContain("die-clr-differs");
    expect(codes([exact(120, 135.5, 1)])).not.toContain("die-clr-differs");
    const right = exact(90, 135, 1);
    const bad = { ...right, legs: [right.legs![0] + 25, right.legs![1]] as const };
    const card = calibrate([exact(60, 135, 1), exact(90, 135, 1), exact(120, 135, 1), bad], D45);
    const finding = card.findings.find((f) => f.code === "die-legs-disagree")!;
    expect(finding.values.n).toEqual({ count: 4 });
  });
});

describe("bad test bends", () => {
  const good = exact(90, 135, 1, 93);
  const cases: readonly [string, DieTest, string][] = [
    ["an angle of 180", { set: 186, got: 180 }, "die-test-got"],
    ["no angle", { set: 5, got: 0 }, "die-test-got"],
    ["not a number", { set: 5, got: Number.NaN }, "die-test-got"],
    ["no setting", { set: 0, got: 20 }, "die-test-set"],
    ["more got than set", { set: 90, got: 91 }, "die-test-over"],
    ["a leg shorter than the bend", { ...good, legs: [150, 500] }, "die-test-leg"],
    ["a stick longer than both legs", { ...good, stick: 800 }, "die-test-stick"],
    ["no stick length", { ...good, stick: 0 }, "die-test-no-stick"],
  ];
  test.each(cases)("%s: one finding, the test left out", (_, bad, code) => {
    const card = calibrate([good, bad], D45, "dies.d45.tests");
    const about = card.findings.filter((f) => f.place.startsWith("dies.d45.tests[1]"));
    expect(about.map((f) => f.code)).toEqual([code]);
    expect(severityOf(about[0]!)).toBe("warning");
    expect(say(about[0]!, WRITER, IDS)).toMatch(/^test bend 2 is left out: /);
    expect(card.radius).toEqual(calibrate([good], D45).radius);
    expect(card.springback).toEqual(calibrate([good], D45).springback);
  });

  test("legs to the centreline corner are doubted; legs without a stick tell springback alone", () => {
    const inner = { ...good, legs: [good.legs![0] - 22.5, good.legs![1] - 22.5] as const };
    expect(codes([inner])).toContain("die-test-unlikely");
    expect(codes([{ set: 93, got: 90, legs: [400, 400] }])).toEqual([
      "die-test-half",
      "die-springback-ratio",
    ]);
    expect(codes([good])).not.toContain("die-test-unlikely");
  });

  test("no tests, no card and nothing to say", () => {
    expect(calibrate([], D45)).toEqual({ findings: [] });
  });

  test("every sentence about a die can be said", () => {
    const all = [
      calibrate([good], D45),
      calibrate([exact(30, 135, 1)], D45),
      calibrate([exact(120, 150, 1), exact(90, 135, 1)], D45),
    ].flatMap((c) => c.findings);
    expect(all.length).toBeGreaterThan(5);
    for (const f of all) expect(say(f, WRITER, IDS)).not.toMatch(/undefined|NaN|Infinity/);
    expect(Object.keys(SEVERITY)).toContain("die-radius-sharpness");
  });
});
