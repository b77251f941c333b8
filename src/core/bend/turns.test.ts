import { describe, expect, test } from "vitest";
import { barThrough, cornersOf, type Listed, WRITER } from "../../../tests/support/bend.ts";
import { bendByCard, inCar } from "../../../tests/support/bender.ts";
import { sayPoints, sayTurn } from "../../words/index.ts";
import { placeAt } from "../bar/index.ts";
import { deg, rad, seeded } from "../numeric/index.ts";
import { cross, dist, dot, rejection, sub, unit, type Vec } from "../space/index.ts";
import { type Hand, type Points, turnedRound, turnsOf } from "./turns.ts";

/** Above level and side of a direction in the bender's axes (x to the die, y left, z up). */
function seen(v: Vec): { above: number; side: Hand | undefined } {
  const across = Math.abs(v[1]);
  const above = Math.atan2(v[2], across);
  return { above, side: across < 1e-6 ? undefined : v[1] > 0 ? "left" : "right" };
}

function expectSeen(points: Points, v: Vec): void {
  const real = seen(v);
  expect(Math.abs(points.above - real.above)).toBeLessThan(1e-6);
  expect(points.side).toBe(real.side);
}

/** Same shape and same hand: no mirror image passes. */
function expectSameShape(a: readonly Vec[], b: readonly Vec[]): void {
  expect(a.length).toBe(b.length);
  for (let i = 0; i < a.length; i += 10) {
    for (let j = 0; j < i; j += 10)
      expect(Math.abs(dist(a[i]!, a[j]!) - dist(b[i]!, b[j]!))).toBeLessThan(1e-6);
  }
  const last = a.length - 1;
  const marks = [0, Math.round(last / 3), Math.round((2 * last) / 3), last] as const;
  const volume = (p: readonly Vec[]): number => {
    const [o, x, y, z] = marks.map((m) => p[m]!) as [Vec, Vec, Vec, Vec];
    return dot(sub(x, o), cross(sub(y, o), sub(z, o)));
  };
  expect(Math.abs(volume(a) - volume(b))).toBeLessThan(1e-5 * Math.max(1, Math.abs(volume(a))));
}

describe("turns, followed by a bender that does what the card says", () => {
  const lists: readonly (readonly [string, readonly Listed[]])[] = [
    [
      "+90",
      [
        [300, 0, 90],
        [250, 90, 90],
      ],
    ],
    [
      "−35",
      [
        [300, 0, 60],
        [250, -35, 40],
      ],
    ],
    [
      "half round",
      [
        [300, 0, 45],
        [250, 180, 45],
      ],
    ],
    [
      "three bends",
      [
        [300, 0, 30],
        [250, 100, 70],
        [220, -150, 110],
      ],
    ],
    [
      "as the pillar bar",
      [
        [209, 0, 27.03],
        [410, 77.46, 42.02],
        [430, -29.85, 42.64],
      ],
    ],
  ];
  const sides: readonly Hand[] = ["left", "right"];

  for (const [name, list] of lists) {
    for (const fromEnd of ["A", "B"] as const) {
      for (const side of sides) {
        test(`${name}, from ${fromEnd}, turning to the ${side}`, () => {
          const bar = barThrough(cornersOf(list, 320, 115), { od: 38, clr: 115, fromEnd });
          const turns = turnsOf(bar, side);
          expect(turns.length).toBe(list.length - 1);
          const bent = bendByCard(bar, turns, side);
          expectSameShape(bent.points, inCar(bar));
          turns.forEach((t, i) => {
            expectSeen(t.points, bent.pointing[i]!);
          });
        });
      }
    }
  }

  test("40 random bars, seed 21", () => {
    const random = seeded(21);
    const upTo = (n: number): number => Math.round(random() * n * 1000) / 1000;
    for (let trial = 0; trial < 40; trial++) {
      const list = Array.from(
        { length: 2 + (trial % 3) },
        (_, i): Listed => [50 + upTo(300), i === 0 ? 0 : upTo(358) - 179, 5 + upTo(115)],
      );
      const bar = barThrough(cornersOf(list, 200, 100), { od: 32, clr: 100, fromEnd: trial % 2 ? "A" : "B" });
      const side = trial % 4 < 2 ? "left" : "right";
      const turns = turnsOf(bar, side);
      const bent = bendByCard(bar, turns, side);
      expectSameShape(bent.points, inCar(bar));
      turns.forEach((t, i) => {
        expectSeen(t.points, bent.pointing[i]!);
      });
    }
  });
});

describe("the words", () => {
  const second = (rotation: number, side: Hand, fromEnd: "A" | "B" = "A"): string => {
    const list: Listed[] = [
      [300, 0, 60],
      [250, rotation, 40],
    ];
    return sayTurn(turnsOf(barThrough(cornersOf(list, 300, 135), { fromEnd }), side)[0]!, WRITER);
  };

  test.each([
    [
      35,
      "left",
      "turn the tube 35.0° clockwise (13.7 mm round the tube): now bend 1 points 35.0° above level, on your left",
    ],
    [
      35,
      "right",
      "turn the tube 35.0° clockwise (13.7 mm round the tube): now bend 1 points 35.0° below level, on your right",
    ],
    [
      -35,
      "left",
      "turn the tube 35.0° counter-clockwise (13.7 mm round the tube): now bend 1 points 35.0° below level, on your left",
    ],
    [
      120,
      "left",
      "turn the tube 120.0° clockwise (47.1 mm round the tube): now bend 1 points 60.0° above level, on your right",
    ],
    [
      -120,
      "right",
      "turn the tube 120.0° counter-clockwise (47.1 mm round the tube): now bend 1 points 60.0° above level, on your left",
    ],
    [90, "left", "turn the tube 90.0° clockwise (35.3 mm round the tube): now bend 1 points straight up"],
    [90, "right", "turn the tube 90.0° clockwise (35.3 mm round the tube): now bend 1 points straight down"],
    [0, "left", "do not turn the tube: bend 1 is level, on your left"],
    [180, "left", "turn the tube half round, either way: now bend 1 is level, on your right"],
  ] as const)("a rotation of %d°, die turning to the %s", (rotation, side, words) => {
    expect(second(rotation, side)).toBe(words);
  });

  test("from B the sign stays and the bends change places", () => {
    expect(second(35, "left", "B")).toBe(
      "turn the tube 35.0° clockwise (13.7 mm round the tube): now bend 2 points 35.0° above level, on your left",
    );
  });

  test("no sign is ever shown", () => {
    for (let r = -179; r <= 180; r += 7) expect(second(r, "right")).not.toMatch(/[-−+]\d/);
  });
});

describe("the tube turned round between two bends", () => {
  test.each([0, 35, -35, 90, 150, -110, 180])("a rotation of %d°: bend 1 on the tail, in 3D", (rotation) => {
    const list: Listed[] = [
      [300, 0, 60],
      [250, rotation, 40],
    ];
    const bar = barThrough(cornersOf(list, 300, 135));
    const { length, bends } = bar.centreline;
    // Fed from B the operator stands at A and looks along the middle leg toward B.
    const look = placeAt(bar.centreline, (bends[0]!.end + bends[1]!.start) / 2).dir;
    const ahead = unit(rejection(placeAt(bar.centreline, length).dir, look));
    const behind = unit(rejection(sub(placeAt(bar.centreline, 0).at, bends[0]!.corner), look));
    for (const side of ["left", "right"] as const) {
      const left: Vec = side === "left" ? ahead : [-ahead[0], -ahead[1], -ahead[2]];
      const up = cross(look, left);
      expectSeen(turnedRound(bar, side)!, [0, dot(behind, left), dot(behind, up)]);
    }
  });

  test("a U stays level; a bar of three bends has no such thing", () => {
    const u = barThrough(
      cornersOf(
        [
          [300, 0, 90],
          [585, 0, 90],
        ],
        300,
        135,
      ),
    );
    expect(sayPoints(1, turnedRound(u, "left")!, WRITER)).toBe("bend 1 is level, on your left");
    const three: Listed[] = [
      [300, 0, 30],
      [250, 10, 30],
      [250, 10, 30],
    ];
    expect(turnedRound(barThrough(cornersOf(three, 300, 135)), "left")).toBeUndefined();
  });
});

describe("round the tube", () => {
  // Common practice, no source; computed by an independent script.
  test.each([
    [45, 0.393],
    [40, 0.349],
    [30, 0.262],
  ])("1° is so much round a tube of %d", (od, round) => {
    const bar = barThrough(
      cornersOf(
        [
          [300, 0, 60],
          [250, 1, 40],
        ],
        300,
        3 * od,
      ),
      { od, clr: 3 * od },
    );
    const t = turnsOf(bar, "left")[0]!;
    expect(deg(t.amount)).toBeCloseTo(1, 9);
    expect(t.roundTube).toBeCloseTo(round, 3);
  });

  test("1 mm round a 40 is 2.86°", () => {
    const bar = barThrough(
      cornersOf(
        [
          [300, 0, 60],
          [250, 2.8648, 40],
        ],
        300,
        120,
      ),
      { od: 40, clr: 120 },
    );
    expect(turnsOf(bar, "left")[0]!.roundTube).toBeCloseTo(1, 4);
    expect(rad(2.8648) * 20).toBeCloseTo(1, 4);
  });
});
