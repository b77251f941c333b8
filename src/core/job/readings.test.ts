import { describe, expect, it } from "vitest";
import { problemLine } from "../../words/index.ts";
import { readJob } from "./read.ts";

const head = { format: "tubewright job", version: 2 };
const tubes = { t: { od: 40, wall: 2 } };
const dies = { d: { od: 40, clr: 120 } };
const hoop = {
  tube: "t",
  die: "d",
  path: [
    [0, 0, 0],
    [0, 0, 900],
    [0, -900, 900],
  ],
};
const points = { "floor-1": [0, 0, 0], "floor-2": [1000, 0, 0], post: {} };

const job = (...readings: unknown[]) => ({ ...head, tubes, dies, bars: { hoop }, points, readings });

const read = (...readings: unknown[]) => {
  const result = readJob(job(...readings));
  if (!result.ok) throw new Error(result.problems.map(problemLine).join("\n"));
  return result.job.readings;
};

const problems = (...readings: unknown[]): readonly string[] => {
  const result = readJob(job(...readings));
  return result.ok ? [] : result.problems.map(problemLine);
};

describe("a tape that was held at a mark", () => {
  it("keeps the mark in millimetres beside what it reads", () => {
    expect(read({ tape: ["floor-1", "post"], length: 1100, mark: "4 in" })).toMatchObject([
      { kind: "tape", length: 1100, mark: 101.6 },
    ]);
  });
  it("reads more than the mark, which is not below nothing", () => {
    expect(problems({ tape: ["floor-1", "post"], length: 100, mark: "4 in" })).toEqual([
      "readings[0].mark: must be less than the length read: 101.6 mm was held, 100 mm read",
    ]);
    expect(problems({ tape: ["floor-1", "post"], length: 100, mark: -3 })).toHaveLength(1);
    const tacked = [{ what: "tape", from: "post", to: { bar: "hoop", along: 3 }, size: 40, mark: 50 }];
    const result = readJob({ ...job(), made: { hoop: { tacked } } });
    expect(result.ok ? [] : result.problems.map(problemLine)).toEqual([
      "made.hoop.tacked[0].mark: must be less than the length read: 50 mm was held, 40 mm read",
    ]);
  });
});

describe("readings", () => {
  it("come out in millimetres and degrees, each of its kind", () => {
    expect(
      read(
        { tape: ["floor-1", "post"], length: "39 3/8 in", sd: "1/16 in" },
        { height: "post", z: 0 },
        { out: "post", y: -12.5 },
        { fore: "post", x: "1' 2\"" },
        { level: ["post", "floor-1"] },
        { plumb: ["post", "floor-2"], sd: 2 },
        { slope: ["floor-1", "post"], angle: -12, sd: 0.1 },
        { lean: "across", angle: 0.3 },
      ),
    ).toEqual([
      {
        kind: "tape",
        ends: [
          { kind: "point", point: "floor-1" },
          { kind: "point", point: "post" },
        ],
        length: 1000.125,
        sd: 1.5875,
      },
      { kind: "height", point: "post", value: 0 },
      { kind: "out", point: "post", value: -12.5 },
      { kind: "fore", point: "post", value: 355.6 },
      { kind: "level", points: ["post", "floor-1"] },
      { kind: "plumb", points: ["post", "floor-2"], sd: 2 },
      { kind: "slope", points: ["floor-1", "post"], angle: -12, sd: 0.1 },
      { kind: "lean", way: "across", angle: 0.3 },
    ]);
  });

  it("say how a tape lay on tubes: end by end, else for both, else round the far side", () => {
    const ends = [
      { bar: "hoop", along: 300 },
      { bar: "hoop", along: -200, over: "inside", bead: 2 },
    ];
    const tube = (over: string, more: object) => ({ kind: "tube", bar: "hoop", bead: 0, over, ...more });
    expect(read({ tape: ends, length: 900 })[0]).toMatchObject({
      ends: [tube("outside", { along: 300 }), tube("inside", { along: -200, bead: 2 })],
    });
    expect(read({ tape: ends, length: 900, over: "centre" })[0]).toMatchObject({
      ends: [tube("centre", { along: 300 }), tube("inside", { along: -200, bead: 2 })],
    });
    expect(read({ tape: ["post", { bar: "hoop", bend: 1 }], length: 900 })[0]).toMatchObject({
      ends: [
        { kind: "point", point: "post" },
        { kind: "corner", bar: "hoop", bend: 1 },
      ],
    });
  });

  it("keep what is struck through and what was noted", () => {
    expect(read({ height: "post", z: 5, struck: true, note: "tape slipped" })[0]).toEqual({
      kind: "height",
      point: "post",
      value: 5,
      struck: true,
      note: "tape slipped",
    });
  });

  it("may name a point whose place is not known", () => {
    expect(problems({ height: "post", z: 5 })).toEqual([]);
  });

  const tape = (more: object) => ({ tape: ["floor-1", "post"], length: 900, ...more });
  const bad: readonly (readonly [string, unknown, string])[] = [
    ["a reading of 0", tape({ length: 0 }), "readings[0].length: must be more than 0 mm, not 0 mm"],
    ["a negative reading", tape({ length: -3 }), "readings[0].length: must be more than 0 mm, not -3 mm"],
    ["no length", { tape: ["floor-1", "post"] }, "readings[0].length: missing"],
    ["a length that is none", tape({ length: "12 apples" }), 'readings[0].length: "12 apples"'],
    ["an error of nothing", tape({ sd: 0 }), "readings[0].sd: must be more than 0 mm, not 0 mm"],
    [
      "an unknown point",
      { height: "pots", z: 1 },
      'readings[0].height: no point is called "pots" — did you mean "post"?',
    ],
    [
      "an unknown end",
      tape({ tape: ["flor-1", "post"] }),
      'readings[0].tape[0]: no point is called "flor-1" — did you mean "floor-1"?',
    ],
    [
      "an unknown bar",
      tape({ tape: [{ bar: "hop", along: 1 }, "post"] }),
      'readings[0].tape[0].bar: no bar is called "hop" — did you mean "hoop"?',
    ],
    ["one point twice", tape({ tape: ["post", "post"] }), "readings[0].tape[1]: both ends are one point"],
    [
      "a point level with itself",
      { level: ["post", "post"] },
      "readings[0].level[1]: both ends are one point",
    ],
    ["a tape of three", tape({ tape: ["post", "floor-1", "floor-2"] }), "readings[0].tape: must be [P, Q]"],
    ["an end of no kind", tape({ tape: ["post", { bar: "hoop" }] }), "readings[0].tape[1]"],
    [
      "another way to lie",
      tape({ tape: ["post", { bar: "hoop", along: 3, over: "outsid" }] }),
      'did you mean "outside"?',
    ],
    [
      "over nothing",
      tape({ over: "inside" }),
      "readings[0].over: take over out: neither end of the tape is on a tube",
    ],
    [
      "a bend before the first",
      tape({ tape: ["post", { bar: "hoop", bend: 0 }] }),
      "readings[0].tape[1].bend: must be at least 1, not 0",
    ],
    [
      "a slope over plumb",
      { slope: ["post", "floor-1"], angle: 91 },
      "readings[0].angle: must be at most 90, not 91",
    ],
    ["a lean that is a slip", { lean: "along", angle: 60 }, "readings[0].angle: must be at most 45, not 60"],
    [
      "a misspelt key",
      { tape: ["floor-1", "post"], lenght: 3 },
      'readings[0].lenght: unknown key — did you mean "length"?',
    ],
    ["another key's value", { height: "post", y: 3 }, "readings[0]: a reading is tape (length), height (z)"],
    ["nothing read", { note: "rained" }, "readings[0]: a reading is tape (length), height (z)"],
    ["no object", 12, "readings[0]: a reading is tape (length), height (z)"],
  ];
  it.each(bad)("refuse %s, in a line that names the place", (_, reading, line) => {
    expect(
      problems(reading).some((problem) => problem.includes(line)),
      problems(reading).join("\n"),
    ).toBe(true);
    expect(problems(reading).length).toBeLessThanOrEqual(2);
  });

  it("are named by their place in the list", () => {
    expect(problems({ height: "post", z: 1 }, { height: "post", z: 1 }, tape({ length: 0 }))).toEqual([
      "readings[2].length: must be more than 0 mm, not 0 mm",
    ]);
  });
});
