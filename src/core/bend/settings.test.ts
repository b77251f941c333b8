import { describe, expect, it } from "vitest";
import { calibrate } from "./die.ts";
import { dieSettings, isBelievable, radiusOf, springsAt } from "./settings.ts";

const ERRORS = { angle: 0.5, tape: 1 };
const bare = { od: 45, clr: 135, arcFactor: 1, tests: [] };
const NONE = { findings: [] };

describe("what a die makes of common angles", () => {
  it("the way round a bend against over its corner: 2R·tan(θ/2) − Rθ, the trade's table for R 135", () => {
    // computed independently: 15° 0.203, 30° 1.660, 45° 5.809, 60° 14.513, 90° 57.942
    const gains = dieSettings(bare, NONE, ERRORS, [15, 30, 45, 60, 90]).map((s) => s.gain);
    for (const [i, gain] of [0.203, 1.66, 5.809, 14.513, 57.942].entries())
      expect(gains[i]).toBeCloseTo(gain, 3);
  });

  it("two bends, 30 set for 27.6 and 90 for 86.1: k 0.975, c −1.65; for 14 set 16.05, where a ratio gives 14.63", () => {
    const tests = [
      { set: 30, got: 27.6 },
      { set: 90, got: 86.1 },
    ];
    const die = { ...bare, tests };
    const card = calibrate(tests, die, "tests", ERRORS);
    const [small, square] = dieSettings(die, card, ERRORS, [14, 86.1]);
    expect(small!.set).toBeCloseTo(16.05, 2);
    expect(square!.set).toBeCloseTo(90, 9);
    expect(springsAt({}, card, 30)!.value).toBeCloseTo(27.6, 9);
    // beyond both tests the line is less sure than at one of them
    expect(small!.sd!).toBeGreaterThan(square!.sd!);
    expect(springsAt({}, card, 90)!.sd).toBeCloseTo(0.5, 9);
  });

  it("its radius from a test bend: A = B = 330 to the centreline's corner, 600 before bending, 90°: 139.79", () => {
    const tests = [{ set: 94, got: 90, legs: [352.5, 352.5] as const, stick: 600 }];
    const card = calibrate(tests, bare, "tests", ERRORS);
    expect(radiusOf(bare, card).clr).toBeCloseTo(139.79, 2);
    const [square] = dieSettings({ ...bare, tests }, card, ERRORS, [90]);
    expect(square!.takeUp).toBeCloseTo(139.79, 2);
    // the stick is the straights and the bend: 2·(330 − 139.79) + used
    expect(square!.used).toBeCloseTo(600 - 2 * (330 - square!.takeUp), 9);
  });

  it("nothing known: no setting; beyond the bender or the die: none either, and no line for an angle it does not bend", () => {
    expect(dieSettings(bare, NONE, ERRORS, [90])[0]).not.toHaveProperty("set");
    const stated = { ...bare, springback: { k: 0.9, c: 0 }, maxAngle: 120 };
    const found = dieSettings(stated, NONE, ERRORS, [90, 115, 150, 0, 180]);
    expect(found.map((s) => [s.angle, s.set])).toEqual([
      [90, 100],
      [115, undefined],
    ]);
    expect(found.map((s) => s.isBeyond)).toEqual([undefined, true]);
    expect(dieSettings(bare, NONE, ERRORS, [90])[0]).not.toHaveProperty("isBeyond");
  });

  it("legs that make tube shorter than its inner side can be are not believed", () => {
    const tests = [
      { set: 94, got: 90, legs: [352.5, 352.5] as const, stick: 600 },
      { set: 125, got: 120.2, legs: [402, 402] as const, stick: 594 },
    ];
    const card = calibrate(tests, bare, "tests", ERRORS);
    expect(card.radius?.arcFactor?.value).toBeLessThan(1 - 22.5 / 135);
    expect(isBelievable(bare, card)).toBe(false);
    expect(radiusOf(bare, card)).toEqual({ clr: 135, arcFactor: 1 });
  });
});
