import { describe, expect, it } from "vitest";
import { barThrough } from "../../../tests/support/bend.ts";
import type { TapeEnd } from "../job/reading-types.ts";
import { seeded } from "../numeric/index.ts";
import type { Vec } from "../space/index.ts";
import { attitudeOf } from "./attitude.ts";
import { type End, endOf } from "./ends.ts";
import {
  type Equation,
  height,
  known,
  lean,
  type Network,
  plumb,
  sameHeight,
  slope,
  tape,
} from "./equation.ts";

const base = { read: 700, sd: 1 };
const p0: End = { kind: "point", point: 0 };
const p1: End = { kind: "point", point: 1 };

const leaning = barThrough([
  [0, 0, 0],
  [300, 200, 900],
]);
const bars = new Map([["post", leaning]]);
const onPost = (over: "outside" | "inside" | "centre", bead = 0): End =>
  endOf({ kind: "tube", bar: "post", along: 400, over, bead }, new Map(), bars, "x") as End;

const EQUATIONS: Readonly<Record<string, Equation>> = {
  "a tape": tape(base, [p0, p1]),
  "a tape to the far side of a tube": tape(base, [p0, onPost("outside")]),
  "a tape from the near side of a tube": tape(base, [onPost("inside", 2), p1]),
  "a height": height(base, 0),
  "a measure forward": known(base, 1, 0),
  "a level": sameHeight(base, [0, 1]),
  "a plumb, forward": plumb(base, [0, 1])[0],
  "a plumb, to the left": plumb(base, [0, 1])[1],
  "a slope": slope({ ...base, read: 0.3 }, [0, 1]),
  "the lean along": lean(base, 0),
  "the lean across": lean(base, 1),
};

const networkOf = (v: readonly number[]): Network => ({
  at: [v.slice(0, 3) as unknown as Vec, v.slice(3, 6) as unknown as Vec],
  attitude: attitudeOf(v[6]!, v[7]!),
});

/** Derivatives by central differences of everything that an equation can see. */
function slow(equation: Equation, v: readonly number[]): number[] {
  return v.map((_, j) => {
    const h = j < 6 ? 1e-3 : 1e-6;
    const at = (k: number): number =>
      equation.observe(networkOf(v.map((c, i) => (i === j ? c + k * h : c)))).value;
    return (at(1) - at(-1)) / (2 * h);
  });
}

function fast(equation: Equation, v: readonly number[]): number[] {
  const { by, byLean = [0, 0] } = equation.observe(networkOf(v));
  const out = [0, 0, 0, 0, 0, 0, ...byLean];
  for (const [p, d] of by)
    d.forEach((c, i) => {
      out[3 * p + i]! += c;
    });
  return out;
}

describe.each(Object.entries(EQUATIONS))("%s", (_, equation) => {
  it.each([1, 2, 3])("moves as its derivatives say (seed %i)", (seed) => {
    const random = seeded(seed);
    const v = [
      ...Array.from({ length: 6 }, () => 2000 * (random() - 0.5)),
      0.2 * (random() - 0.5),
      0.2 * (random() - 0.5),
    ];
    const [got, want] = [fast(equation, v), slow(equation, v)];
    got.forEach((g, j) => {
      expect(Math.abs(g - want[j]!)).toBeLessThan(1e-6 * (1 + Math.abs(want[j]!)));
    });
  });
});

describe("tapes at tubes (trade-checks C4: 1240 over two tubes of 45 are 1195 between centres and 1150 between)", () => {
  const post = (y: number) =>
    barThrough([
      [0, y, 0],
      [0, y, 900],
    ]);
  const pair = new Map([
    ["l", post(597.5)],
    ["r", post(-597.5)],
  ]);
  const read = (over: "outside" | "inside" | "centre", bead = 0): number => {
    const end = (bar: string): End =>
      endOf({ kind: "tube", bar, along: 400, over, bead }, new Map(), pair, "x") as End;
    return tape(base, [end("l"), end("r")]).observe({ at: [], attitude: attitudeOf(0, 0) }).value;
  };

  it("read over, between and figured to the centres", () => {
    expect(read("outside")).toBeCloseTo(1240, 9);
    expect(read("centre")).toBeCloseTo(1195, 9);
    expect(read("inside")).toBeCloseTo(1150, 9);
  });

  it("hooked on beads of 2 read 4 longer outside and 4 shorter inside", () => {
    expect(read("outside", 2)).toBeCloseTo(1244, 9);
    expect(read("inside", 2)).toBeCloseTo(1146, 9);
  });

  it("the mark is the nearest and the farthest of the section, as a walk round it finds them", () => {
    const network: Network = { at: [[900, -250, 130]], attitude: attitudeOf(0, 0) };
    const round = Array.from({ length: 3600 }, (_, k) => {
      const a = (k * Math.PI) / 1800;
      const at: Vec = [22.5 * Math.cos(a), 597.5 + 22.5 * Math.sin(a), 400];
      return Math.hypot(900 - at[0], -250 - at[1], 130 - at[2]);
    });
    const value = (over: "outside" | "inside"): number =>
      tape(base, [
        p0,
        endOf({ kind: "tube", bar: "l", along: 400, over, bead: 0 }, new Map(), pair, "x") as End,
      ]).observe(network).value;
    expect(value("inside")).toBeCloseTo(Math.min(...round), 3);
    expect(value("outside")).toBeCloseTo(Math.max(...round), 3);
  });
});

describe("ends", () => {
  const hoop = barThrough([
    [0, 600, 0],
    [0, 600, 900],
    [0, -600, 900],
    [0, -600, 0],
  ]);
  const find = (end: TapeEnd) =>
    endOf(end, new Map([["a", 3]]), new Map([["hoop", hoop]]), "readings[0].tape[0]");

  it("a die-bent corner is where the outer lines of both legs meet: square, half a tube out and half a tube up", () => {
    expect(find({ kind: "corner", bar: "hoop", bend: 1 })).toMatchObject({ kind: "place" });
    const [first, second] = [1, 2].map((bend) => find({ kind: "corner", bar: "hoop", bend }));
    const close = (got: unknown, want: Vec): void => {
      want.forEach((c, i) => {
        expect((got as { centre: Vec }).centre[i]).toBeCloseTo(c, 9);
      });
    };
    close(first, [0, 622.5, 922.5]);
    close(second, [0, -622.5, 922.5]);
  });

  it("at 60 degrees it lies r/cos 30° out along the middle between the legs", () => {
    const bar = barThrough([
      [0, 0, 0],
      [1000, 0, 0],
      [1000 + 500, 0, 500 * Math.sqrt(3)],
    ]);
    const end = endOf({ kind: "corner", bar: "b", bend: 1 }, new Map(), new Map([["b", bar]]), "x") as {
      centre: Vec;
    };
    // The outer line of the first leg is z = −22.5; the other outer line meets it 22.5·tan 30° past the corner.
    expect(end.centre[0]).toBeCloseTo(1000 + 22.5 * Math.tan(Math.PI / 6), 9);
    expect(end.centre[2]).toBeCloseTo(-22.5, 9);
  });

  it("stations below 0 count from the B end", () => {
    const length = hoop.centreline.length;
    const [a, b] = [100 - length, 100].map((along) =>
      find({ kind: "tube", bar: "hoop", along, over: "centre", bead: 0 }),
    );
    expect(a).toEqual(b);
    expect(find({ kind: "point", point: "a" })).toEqual({ kind: "point", point: 3 });
  });

  it.each([
    [{ kind: "tube", bar: "hop", along: 1, over: "centre", bead: 0 }, "survey-bar-missing"],
    [{ kind: "tube", bar: "hoop", along: 9000, over: "centre", bead: 0 }, "survey-off-bar"],
    [{ kind: "tube", bar: "hoop", along: -9000, over: "centre", bead: 0 }, "survey-off-bar"],
    [{ kind: "corner", bar: "hoop", bend: 3 }, "survey-no-bend"],
  ] as const)("%o is no end: %s", (end, code) => {
    expect(find(end)).toMatchObject({ code, place: "readings[0].tape[0]" });
  });
});
