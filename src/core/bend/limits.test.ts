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
import { IDS, say } from "../../words/index.ts";
import { type Finding, severityOf } from "../findings/index.ts";
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
    expect(found.map((f) => say(f, WRITER, IDS))).toEqual([
      "bend 1 has 50.0 mm of straight before it from end A: the clamp needs 90.0 mm",
      "bends 1 and 2 have 20.0 mm of straight between them: the die needs 60.0 mm",
      "bend 2 has 30.0 mm of tube behind it to end B: the bender needs 120.0 mm",
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
    expect(bare.map((f) => say(f, WRITER, IDS))).toEqual([
      "the die is not calibrated: its card lacks springback (two test bends), straight that the clamp needs, least straight between bends, tube needed behind the last bend and largest angle",
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
    expect(severityOf(at(400, "right")[0]!)).toBe("danger");
    // From B: 300·sin 40° + 135(1 − cos 40°) + 22.5·cos 40° = 241.7.
    expect(say(at(400, "right")[0]!, WRITER, IDS)).toBe(
      "raise the bender or feed from end B: at bend 2 the bent part swings into the floor. It hangs 435.0 mm under the die, the floor is 400.0 mm under it. Fed from end B it would hang 241.7 mm at most",
    );
    // where the other end helps no more, it is not advised
    expect(say(at(200, "right")[0]!, WRITER, IDS)).toMatch(
      /^raise the bender: at bend 2 the bent part swings/,
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

describe("where the operator works", () => {
  const found = (list: readonly Listed[], last: number, bender: object = {}, options: BarOptions = {}) => {
    const bar = barThrough(cornersOf(list, last, 135), { die: MEASURED, ...options });
    return bendLimits(bar, NO_BACK, { ...BENDER, ...bender } as Parameters<typeof bendLimits>[2]).filter(
      (f) => f.code === "bend-into-operator",
    );
  };
  const uBar = (between: number): readonly Listed[] => [
    [900, 0, 90],
    [between, 0, 90],
  ];

  test("a U: its free leg comes back beside the tail, as far as it is long, and is a danger with its reach", () => {
    // Springback of the die: bend 2 is set to (90 + 1.6)/0.976 = 93.85°. Axis at 135 left, leg's line 135 + 50 + 135 ahead
    // of it; the leg's end is 900 + 135 from the axis' level, square to that: turned 93.85° past the left.
    const [f] = found(uBar(50), 200);
    expect(severityOf(f!)).toBe("danger");
    const turned = ((90 + 1.6) / 0.976) * (Math.PI / 180);
    const [x, y] = [50 + 135, 900];
    const back = -(x * Math.cos(turned) - y * Math.sin(turned));
    expect((f!.values.reach as { mm: number }).mm).toBeCloseTo(back, 6);
    expect(say(f!, WRITER, IDS)).toMatch(
      /^keep out of the swing at bend 2\. The bent part comes \d+\.\d mm back past the die on your left\. It comes at body height, within 600\.0 mm of the tube\. Fed from end B it would come 0\.0 mm at most$/,
    );
    expect(found(uBar(50), 300, { turnSide: "right" })[0]!.values.side).toEqual({ text: "right" });
  });

  test("a wide hoop comes back beyond an arm's length, a shallow bend not at all, a short leg not past the machine", () => {
    expect(found(uBar(900), 300)).toEqual([]);
    expect(found([[900, 0, 60]], 300)).toEqual([]);
    expect(
      found(
        [
          [200, 0, 90],
          [50, 0, 90],
        ],
        300,
      ),
    ).toEqual([]);
  });

  test("over a man's head and under the floor nobody is hit; without a height every height counts", () => {
    // the free leg runs level, 1235 over or under the die while bend 3 turns it back
    const over: readonly Listed[] = [
      [900, 0, 90],
      [965, 90, 90],
      [50, 90, 90],
    ];
    const at = (height: number | undefined, turnSide: "left" | "right") =>
      found(over, 200, { turnSide, ...(height === undefined ? {} : { height }) }).map(
        (f) => (f.values.bend as { count: number }).count,
      );
    for (const turnSide of ["left", "right"] as const)
      for (const height of [600, 900, 1200])
        for (const bend of at(height, turnSide)) expect(at(undefined, turnSide)).toContain(bend);
  });

  test("slow twin: 40 random bars on a bender that follows the card, its bent part turned by small steps, seed 7", () => {
    const random = seeded(7);
    const upTo = (n: number): number => Math.round(random() * n * 1000) / 1000;
    let seen = 0;
    for (let trial = 0; trial < 40; trial++) {
      const bends = Array.from(
        { length: 2 + (trial % 2) },
        (_, i): Listed => [150 + upTo(700), i === 0 ? 0 : upTo(358) - 179, 40 + upTo(110)],
      );
      const turnSide = trial % 2 ? "left" : "right";
      const fromEnd = trial % 4 < 2 ? "A" : "B";
      const height = 900;
      const bar = barThrough(cornersOf(bends, 250, 100), {
        od: 32,
        clr: 100,
        fromEnd,
        die: { ...MEASURED, springback: { k: 1, c: 0 } },
      });
      const by = new Map(
        bendLimits(bar, NO_BACK, { height, turnSide })
          .filter((f) => f.code === "bend-into-operator")
          .map((f) => [(f.values.bend as { count: number }).count, (f.values.reach as { mm: number }).mm]),
      );
      const order = fromEnd === "A" ? bar.centreline.bends : [...bar.centreline.bends].reverse();
      const turns = turnsOf(bar, turnSide);
      const hand = turnSide === "left" ? 1 : -1;
      bendByCard(bar, turns, turnSide, 1501).ahead.forEach((points, i) => {
        const bend = order[i + 1]!;
        let far = 0;
        for (let step = 0; step <= 600; step++) {
          const a = hand * ((bend.angle * step) / 600);
          for (const [px, py, pz] of points) {
            if (pz < -height - 16 || pz > 1950 - height + 16) continue;
            const dy = py - hand * 100;
            const x = px * Math.cos(a) - dy * Math.sin(a);
            const y = px * Math.sin(a) + dy * Math.cos(a) + hand * 100;
            if (Math.abs(y) <= 600 + 16) far = Math.max(far, -x);
          }
        }
        const said = by.get(bend.n) ?? 0;
        if (Math.abs(far - 300) < 5) return;
        expect(Math.abs(said - (far > 300 ? far : 0))).toBeLessThan(5);
        if (said > 0) seen++;
      });
    }
    expect(seen).toBeGreaterThan(10);
  });
});
