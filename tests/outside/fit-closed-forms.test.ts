import { describe, expect, test } from "vitest";
import { restsAt } from "../../src/core/fit/index.ts";
import { deg } from "../../src/core/numeric/index.ts";
import { sayWhy } from "../../src/words/index.ts";
import { barOf, fittingFor, jobOf, judgedLast } from "../support/fit.ts";

/**
 * Facts of the trade put as plane geometry (common practice, no source): derivations at each; numbers worked out by an
 * independent script. 2 % is what a shop could tell apart.
 */
describe("a bar swung in between parallel hosts", () => {
  /** Hosts of 40 with centres `apart`, closed by rails above and below, so that sliding along leads nowhere. */
  const window = (apart: number) =>
    jobOf({
      left: [
        [0, 0, -apart],
        [0, 0, apart],
      ],
      right: [
        [0, apart, -apart],
        [0, apart, apart],
      ],
      top: [
        { on: "left", z: apart - 40 },
        { on: "right", z: apart - 40 },
      ],
      low: [
        { on: "left", z: 40 - apart },
        { on: "right", z: 40 - apart },
      ],
      bar: [
        { on: "left", z: 0 },
        { on: "right", z: 0 },
      ],
    });

  // A rectangle G by d turned between two walls needs its diagonal: √(G² + d²) − G in all, half of it a side.
  test.each([
    [300, 1.529],
    [600, 0.713],
    [1000, 0.416],
  ])("centres %i apart: %f mm a side", (apart, side) => {
    const gap = apart - 40;
    expect((Math.hypot(gap, 40) - gap) / 2).toBeCloseTo(side, 2);
    const judged = judgedLast(window(apart), "bar");
    expect(judged.goesIn).toBe("spring");
    expect(judged.joint).toBe("slides");
    expect(Math.abs(judged.spring / side - 1)).toBeLessThan(0.02);
    expect(sayWhy(judged.why, String)).toContain("an upper bound");
  });

  // The length l = G + e between walls G apart: l cos ψ + d sin ψ = G, so ψ = atan(d/l) + acos(G/√(l² + d²)).
  test.each([
    [1000, 1, 5.72, 99.8],
    [1000, 3, 7.27, 126.9],
    [1000, 5, 8.43, 147.4],
    [600, 3, 10.65, 111.5],
  ])("faces %i apart, %i mm too long: stands at %f°, far end %f out", (gap, e, angle, out) => {
    const l = gap + e;
    expect(deg(Math.atan(40 / l) + Math.acos(gap / Math.hypot(l, 40)))).toBeCloseTo(angle, 2);
    const apart = gap + 40;
    const fitting = fittingFor(
      jobOf({
        left: [
          [0, 0, -900],
          [0, 0, 900],
        ],
        right: [
          [0, apart, -900],
          [0, apart, 900],
        ],
        bar: [
          { on: "left", z: 0 },
          { on: "right", z: 0 },
        ],
      }),
    );
    const rests = restsAt(barOf(fitting, "bar"), { B: e });
    expect(Math.abs(deg(rests.swung!.angle) / angle - 1)).toBeLessThan(0.02);
    // The bar here runs to centrelines 40 farther apart than the faces; its far end is out by the same share.
    expect(Math.abs((rests.swung!.out * l) / (apart * out) - 1)).toBeLessThan(0.02);
  });
});

describe("a bar between leaning hosts has one width at each height", () => {
  // W(z) = 2 (520 − 210 z / 900): 760 at 600, 764.667 at 590: 4.667 mm of width for 10 mm of height.
  const fitting = fittingFor(
    jobOf({
      left: [
        [0, 520, 0],
        [0, 310, 900],
      ],
      right: [
        [0, -520, 0],
        [0, -310, 900],
      ],
      bar: [
        { on: "left", z: 600 },
        { on: "right", z: 600 },
      ],
    }),
  );

  test("the bar at 600 is 760.0 long", () => {
    expect(barOf(fitting, "bar").bar.centreline.length).toBeCloseTo(760, 6);
  });

  test.each([4.667, 2.3333])("left %f mm over, half at each end, it stops short by 10 mm in 4.667", (e) => {
    const rests = restsAt(barOf(fitting, "bar"), { A: e / 2, B: e / 2 });
    expect(rests.short! / ((e / 4.6667) * 10)).toBeCloseTo(1, 2);
  });

  test("cut true it seats", () => {
    expect(restsAt(barOf(fitting, "bar"), {}).short).toBe(0);
  });
});
