import { describe, expect, test } from "vitest";
import {
  type BarOptions,
  barThrough,
  cornersOf,
  type Listed,
  NO_BACK,
  WRITER,
} from "../../../tests/support/bend.ts";
import { bendByCard } from "../../../tests/support/bender.ts";
import { type Finding, say, severityOf } from "../findings/index.ts";
import { seeded } from "../numeric/index.ts";
import { bendLimits } from "./limits.ts";
import { turnsOf } from "./turns.ts";

const MEASURED = {
  clamp: 90,
  between: 60,
  tail: 120,
  maxAngle: 180,
  springback: { k: 0.976, c: -1.6 },
};
const BENDER = { turnSide: "left" } as const;

function limits(list: readonly Listed[], last: number, options: BarOptions = {}): readonly Finding[] {
  const bar = barThrough(cornersOf(list, last, options.clr ?? 135), {
    ...options,
    die: { ...MEASURED, ...options.die },
  });
  return bendLimits(bar, NO_BACK, BENDER);
}

const codes = (findings: readonly Finding[]): string[] => findings.map((f) => f.code);

describe("straights", () => {
  const U = (first: number, between: number, last: number): Listed[] & { last: number } =>
    Object.assign([[first, 0, 90] as Listed, [between, 0, 90] as Listed], { last });

  test.each([
    ["all just enough", U(90, 60, 120), []],
    ["rounding on the limit", U(89.9995, 59.9995, 119.9995), []],
    ["clamp", U(89.99, 60, 120), ["clamp-short"]],
    ["between", U(90, 59.99, 120), ["bends-close"]],
    ["tail", U(90, 60, 119.99), ["tail-short"]],
  ] as const)("%s", (_, list, expected) => {
    expect(codes(limits(list, list.last))).toEqual(expected);
  });

  test("numbers of each, and all are warnings that name the bar", () => {
    const found = limits(U(50, 20, 30), 30);
    expect(found.map((f) => say(f, WRITER))).toEqual([
      "bend 1 has 50.0 mm of straight before it from end A; the clamp needs 90.0 mm",
      "bends 1 and 2 have 20.0 mm of straight between them; the die needs 60.0 mm",
      "bend 2 has 30.0 mm of tube behind it to end B; the bender needs 120.0 mm",
    ]);
    for (const f of found) {
      expect(severityOf(f)).toBe("warning");
      expect(f.bar).toBe("bar");
      expect(f.place).toBe("bars.bar");
    }
  });

  test("trim gives room, a cope takes it, and clamp and tail change places with the end fed first", () => {
    const nodes = cornersOf(U(80, 60, 110), 110, 135);
    const run = (options: BarOptions, back = NO_BACK): string[] =>
      codes(bendLimits(barThrough(nodes, { ...options, die: MEASURED }), back, BENDER));
    expect(run({})).toEqual(["clamp-short", "tail-short"]);
    expect(run({ trim: { A: 10, B: 10 } })).toEqual([]);
    expect(run({ trim: { A: 10, B: 10 } }, { A: 5, B: 0 })).toEqual(["clamp-short"]);
    expect(run({ fromEnd: "B" })).toEqual(["tail-short"]);
  });

  test("a cope that runs into the bend is reported even where the die states no clamp and no tail", () => {
    const nodes = cornersOf([[20, 0, 90]], 20, 135);
    const die = { between: 60, maxAngle: 180, springback: { k: 1, c: 0 } };
    const found = bendLimits(barThrough(nodes, { die }), { A: 25, B: 25 }, BENDER);
    expect(codes(found)).toEqual(["die-uncalibrated", "clamp-short", "tail-short"]);
  });
});

describe("the die", () => {
  const plain: readonly Listed[] = [[300, 0, 90]];

  test("what its card lacks is named", () => {
    const bare = bendLimits(barThrough(cornersOf(plain, 300, 135)), NO_BACK, BENDER);
    expect(bare.map((f) => say(f, WRITER))).toEqual([
      "the die is not calibrated; its card lacks: springback (two test bends), straight that the clamp needs, least straight between bends, tube needed behind the last bend, largest angle",
    ]);
    expect(bare[0]!.place).toBe("dies.d");
    const { springback: _, ...rest } = MEASURED;
    const tested = { ...rest, tests: [{ set: 93, got: 90 }] };
    expect(bendLimits(barThrough(cornersOf(plain, 300, 135), { die: tested }), NO_BACK, BENDER)).toEqual([]);
  });

  test("a die of another tube", () => {
    expect(codes(limits(plain, 300, { die: { od: 44.9 } }))).toEqual(["die-other-tube"]);
    expect(codes(limits(plain, 300, { die: { od: 45.0005 } }))).toEqual([]);
  });

  test.each([
    [134.9995, []],
    [135, []],
    [134.998, ["bend-tight"]],
  ] as const)("3 × 45 against a radius of %d", (clr, expected) => {
    expect(codes(limits(plain, 300, { clr }))).toEqual(expected);
  });

  test.each([
    [90, []],
    [90.0005, []],
    [87.6, []],
    [86.24, []],
    [86.27, ["set-beyond-die"]],
    [90.002, ["angle-beyond-die"]],
  ] as const)("a bend of %d° on a die that goes to 90, with and without overbend", (angle, expected) => {
    const springback = angle > 87 ? { k: 1, c: 0 } : { k: 0.976, c: -1.6 };
    expect(codes(limits([[300, 0, angle]], 300, { die: { maxAngle: 90, springback } }))).toEqual(expected);
  });

  test("a straight bar has no limits at the bender", () => {
    const bar = barThrough([
      [0, 0, 0],
      [500, 0, 0],
    ]);
    expect(bendLimits(bar, NO_BACK, { ...BENDER, height: 100 })).toEqual([]);
  });
});

describe("the floor", () => {
  // A first leg of 300 + 135 beyond the centreline, hanging straight down at the second bend.
  const list: readonly Listed[] = [
    [300, 0, 90],
    [250, 90, 40],
  ];
  const at = (height: number, turnSide: "left" | "right", fromEnd: "A" | "B" = "A"): readonly Finding[] =>
    bendLimits(barThrough(cornersOf(list, 300, 135), { die: MEASURED, fromEnd }), NO_BACK, {
      height,
      turnSide,
    });

  test("a leg that hangs 435 under the die needs 435, and only where it hangs down", () => {
    expect(codes(at(435.01, "right"))).toEqual([]);
    expect(codes(at(434.99, "right"))).toEqual(["bend-into-floor"]);
    expect(codes(at(434.99, "left"))).toEqual([]);
    expect(severityOf(at(400, "right")[0]!)).toBe("warning");
    // From B: 300·sin 40° + 135(1 − cos 40°) + 22.5·cos 40° = 241.7.
    expect(say(at(400, "right")[0]!, WRITER)).toBe(
      "while bend 2 is made the bent part hangs 435.0 mm under the die, which stands 400.0 mm over the floor; fed from end B it would hang 241.7 mm at most",
    );
  });

  test("without a height nothing is judged", () => {
    const bar = barThrough(cornersOf(list, 300, 135), { die: MEASURED });
    expect(bendLimits(bar, NO_BACK, { turnSide: "right" })).toEqual([]);
  });

  test("slow twin: 30 random bars on a bender that follows the card, seed 51", () => {
    const random = seeded(51);
    const upTo = (n: number): number => Math.round(random() * n * 1000) / 1000;
    let seen = 0;
    for (let trial = 0; trial < 30; trial++) {
      const bends = Array.from(
        { length: 2 + (trial % 3) },
        (_, i): Listed => [150 + upTo(300), i === 0 ? 0 : upTo(358) - 179, 20 + upTo(130)],
      );
      const turnSide = trial % 2 ? "left" : "right";
      const fromEnd = trial % 4 < 2 ? "A" : "B";
      const bar = barThrough(cornersOf(bends, 250, 100), { od: 32, clr: 100, fromEnd, die: MEASURED });
      const bent = bendByCard(bar, turnsOf(bar, turnSide), turnSide, 4001);
      const found = bendLimits(bar, NO_BACK, { height: 0, turnSide }).filter(
        (f) => f.code === "bend-into-floor",
      );
      expect(found.length).toBe(bends.length - 1);
      bent.ahead.forEach((points, i) => {
        // Lowest outside point of short chords, the tube level or leaning as they do.
        let low = 0;
        for (let j = 0; j + 1 < points.length; j++) {
          const [p, q] = [points[j]!, points[j + 1]!];
          const slope = Math.abs(p[2] - q[2]) / Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
          const drop = 16 * Math.sqrt(Math.max(0, 1 - slope * slope));
          low = Math.min(low, p[2] - drop, q[2] - drop);
        }
        const said = (found[i]!.values.below as { readonly mm: number }).mm;
        expect(Math.abs(said + low)).toBeLessThan(0.2);
        if (said > 16.01) seen++;
      });
    }
    expect(seen).toBeGreaterThan(15);
  });
});
