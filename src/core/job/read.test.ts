import { describe, expect, it } from "vitest";
import demo from "../../../demo/sandling.json";
import trial from "../../../tests/corpus/trial-frame.json";
import { problemLine } from "../../words/index.ts";
import { type Job, readJob } from "./index.ts";

function read(input: unknown): Job {
  const result = readJob(input);
  if (!result.ok) throw new Error(result.problems.map(problemLine).join("\n"));
  return result.job;
}

const head = { format: "tubewright job", version: 2 } as const;
const tubes = { t: { od: 45, wall: 2.5 } };
const hoop = {
  tube: "t",
  path: [
    [0, 600, 0],
    [0, -600, 0],
  ],
};

/** The nodes that a path comes out as, beside a hoop that it may land on. */
const nodes = (...path: unknown[]) => {
  const bar = read({ ...head, tubes, bars: { hoop, b: { tube: "t", path } } }).bars.b;
  return bar?.kind === "path" ? bar.path : [];
};

describe("the documents that must be read", () => {
  it("reads the demo: 36 bars, every number as it stands", () => {
    const job = read(JSON.stringify(demo));
    expect(Object.keys(job.bars)).toEqual(Object.keys(demo.bars));
    expect(Object.keys(job.bars)).toHaveLength(36);
    expect(job.bars["harness-bar"]).toEqual({
      kind: "path",
      label: "Harness bar",
      tube: "40x2",
      path: [639.596, 2386.3481].map((along) => {
        return { kind: "on", on: "main-hoop", where: { by: "along", along }, off: [0, 0, 0], also: [] };
      }),
      trim: {},
      fromEnd: "A",
    });
    expect(job.rack[1]).toEqual(demo.rack[1]);
    expect(job.body.lines["front-post-inner-face-left"]).toEqual([
      [1030, 645, 714],
      [1080, 652, 70],
    ]);
    expect(job.driver?.helmetRadius).toBe(145);
    expect(job.notcher).toEqual({ saws: [45, 40, 38, 30], steepest: 60, wrapBeyond: 1 });
  });

  it("reads the trial frame", () => {
    const job = read(trial);
    expect(job.bars["stay-r"]).toEqual({ kind: "mirror", label: "Rear stay", mirrorOf: "stay-l" });
    expect(job.points.shoulder).toEqual({ at: [-150, 0, 620], sd: [0, 0, 0] });
    const cross = job.bars.cross;
    expect(cross?.kind === "path" && cross.path[1]).toMatchObject({
      where: { by: "plane", axis: "z", value: 620, near: "right" },
    });
  });

  it("gives back the document as it was typed", () => {
    const document = { ...head, tubes: { t: { od: "1 3/4 in", wall: '.095"' } } };
    const result = readJob(JSON.stringify(document));
    expect(result.ok && result.document).toEqual(document);
    expect(result.ok && result.job.tubes.t).toEqual({ od: 44.45, wall: 2.413 });
  });
});

it("shows inches in eighths to 128ths, or in thousandths", () => {
  for (const fraction of [8, 16, 32, 64, 128, 1000])
    expect(read({ ...head, show: { length: "in", fraction } }).show).toEqual({ length: "in", fraction });
});

describe("defaults", () => {
  it("fill in what a bare job leaves out", () => {
    expect(read(head)).toEqual({
      ...head,
      name: "",
      show: { length: "mm", fraction: 16 },
      tubes: {},
      dies: {},
      plates: {},
      points: {},
      bars: {},
      readings: [],
      bender: { turnSide: "left" },
      notcher: { saws: [], wrapBeyond: 1 },
      shop: {
        gap: 1,
        trim: 0,
        kerf: 3,
        errors: { mark: 1, angle: 0.5, turn: 1, tape: 1, slope: 0.2, height: 1, level: 1, plumb: 1 },
      },
      rack: [],
      body: { lines: {}, skin: {} },
    });
  });

  it("fill in dies, points, plates and what hangs on another setting", () => {
    const job = read({
      ...head,
      dies: { d: { od: 45, clr: 135 } },
      points: {
        a: {},
        b: { at: [1, 2, 3], sd: 2 },
        c: { at: [1, 2, 3], sd: [1, 2, 3] },
        e: { at: [1, 2, 3] },
      },
      plates: { p: { at: [0, 0, 0], normal: [0, 3, 4] } },
      shop: { gap: 1.5, errors: { tape: 2 } },
    });
    expect(job.dies.d).toEqual({ od: 45, clr: 135, mark: 0, arcFactor: 1, tests: [] });
    expect(job.points.a).toEqual({ sd: [0, 0, 0] });
    expect(job.points.b?.sd).toEqual([2, 2, 2]);
    expect(job.points.c?.sd).toEqual([1, 2, 3]);
    expect(job.points.e?.sd).toEqual([0, 0, 0]);
    expect(job.plates.p?.normal).toEqual([0, 0.6, 0.8]);
    expect(job.notcher.wrapBeyond).toBe(1.5);
    expect(job.shop.errors).toMatchObject({ mark: 1, angle: 0.5, tape: 2, slope: 0.2, height: 1 });
  });

  it("name a bar by its ID where it has no label", () => {
    expect(read({ ...head, tubes, bars: { hoop } }).bars.hoop?.label).toBe("hoop");
  });
});

describe("nodes", () => {
  const end = [0, 0, 900];
  it.each([
    [["1 in", "-1/2", "2 m"], { kind: "at", at: [25.4, -12.7, 2000] }],
    [{ at: [1, 2, "3 mm"] }, { kind: "at", at: [1, 2, 3] }],
    [
      { on: "hoop", along: `-1' 3-1/2"` },
      { kind: "on", on: "hoop", where: { by: "along", along: -393.7 }, off: [0, 0, 0], also: [] },
    ],
    [
      { on: "hoop", y: "2 in", near: [0, "1 in", 0], off: [0, 0, 5] },
      {
        kind: "on",
        on: "hoop",
        where: { by: "plane", axis: "y", value: 50.8, near: [0, 25.4, 0] },
        off: [0, 0, 5],
        also: [],
      },
    ],
    [
      { on: "hoop", toward: { on: "hoop", toward: ["1 in", 0, 0] } },
      {
        kind: "on",
        on: "hoop",
        where: {
          by: "toward",
          toward: {
            kind: "on",
            on: "hoop",
            where: { by: "toward", toward: { kind: "at", at: [25.4, 0, 0] } },
            off: [0, 0, 0],
            also: [],
          },
        },
        off: [0, 0, 0],
        also: [],
      },
    ],
  ])("%j", (node, out) => expect(nodes(node, end)[0]).toEqual(out));

  it("step, stand on plates and take points", () => {
    const job = read({
      ...head,
      tubes,
      points: { hip: [1, 2, 3] },
      plates: { foot: { at: [0, 0, 0], normal: [0, 0, 2] } },
      bars: {
        b: {
          tube: "t",
          path: [{ point: "hip", by: [0, 0, "1 cm"] }, { step: [0, 5, 0] }, { plate: "foot" }],
        },
      },
    });
    expect(job.bars.b?.kind === "path" && job.bars.b.path).toEqual([
      { kind: "point", point: "hip", by: [0, 0, 10] },
      { kind: "step", step: [0, 5, 0] },
      { kind: "plate", plate: "foot" },
    ]);
  });
});

describe("bars", () => {
  it("follow, mirror, and say what is believed of their ends", () => {
    const follow = { bar: "hoop", gap: "60 mm", side: "inside", from: 10 };
    const job = read({
      ...head,
      tubes,
      bars: {
        hoop,
        f: { ...hoop, follow, trim: { A: "1/2 in" }, fromEnd: "B", believed: { A: [40, 50], B: 44 } },
        m: { mirrorOf: "f", trim: { B: 4 }, believed: { A: 12 } },
      },
    });
    expect(job.bars.f).toMatchObject({
      follow: { bar: "hoop", gap: 60, side: "inside", from: 10 },
      trim: { A: 12.7 },
      fromEnd: "B",
      believed: { A: [40, 50], B: 44 },
    });
    expect(job.bars.m).toEqual({
      kind: "mirror",
      label: "m",
      mirrorOf: "f",
      trim: { B: 4 },
      believed: { A: 12 },
    });
  });

  it("say how far they have come, each of a pair by itself", () => {
    const bars = {
      hoop: { ...hoop, progress: "tacked" },
      m: { mirrorOf: "hoop", progress: "laid out" },
      n: hoop,
    };
    const job = read({ ...head, tubes, bars });
    expect(Object.values(job.bars).map((bar) => bar.progress)).toEqual(["tacked", "laid out", undefined]);
    const slip = readJob({ ...head, tubes, bars: { hoop: { ...hoop, progress: "weldet" } } });
    expect(!slip.ok && slip.problems.map(problemLine)).toEqual([
      'bars.hoop.progress: must be "laid out" or "sawn" or "bent" or "notched" or "fitted" or "tacked" or "welded", not the text "weldet" — did you mean "welded"?',
    ]);
  });

  it("may bear names that the language uses itself", () => {
    const names = ["constructor", "toString", "hasOwnProperty", "valueOf"];
    const bars = Object.fromEntries(names.map((n, i) => [n, { ...hoop, tube: names[(i + 1) % 4] }]));
    const job = read({ ...head, tubes: Object.fromEntries(names.map((n) => [n, tubes.t])), bars });
    expect(Object.keys(job.bars)).toEqual(names);
    expect(job.plates.constructor).toBeUndefined();
    const lost = readJob({ ...head, tubes, bars: { b: { ...hoop, tube: "constructor" } } });
    expect(!lost.ok && lost.problems.map(problemLine)).toEqual([
      'bars.b.tube: no tube is called "constructor"',
    ]);
  });
});

describe("entering in millimetres or in inches", () => {
  it("comes out the same to the last digit", () => {
    const path = (unit: (n: number) => unknown) => [[0, unit(40), 0], { step: [unit(3), 0, unit(-7)] }];
    const job = (unit: (n: number) => unknown) =>
      read({ ...head, tubes, bars: { b: { tube: "t", path: path(unit), trim: { A: unit(2) } } } });
    const inches = job((n) => `${n}/64 in`);
    expect(inches).toEqual(job((n) => (254 * n) / 640));
    expect(inches).toEqual(job((n) => `${(254 * n) / 640} mm`));
  });
});

describe("size", () => {
  it("2000 bars and ten megabytes of readings are read at once", () => {
    const bars: Record<string, unknown> = { hoop };
    for (let i = 0; i < 2000; i++) {
      const on = i === 0 ? "hoop" : `bar-${i - 1}`;
      bars[`bar-${i}`] = { tube: "t", path: [{ on, along: '12 5/16"' }, [0, i, 3], { on: "hoop", z: 3 }] };
    }
    const readings = Array.from({ length: 1000 }, () => ({
      level: ["a", "b"],
      note: "x".repeat(10_000),
    }));
    const text = JSON.stringify({ ...head, tubes, bars, points: { a: {}, b: {} }, readings });
    expect(text.length).toBeGreaterThan(10_000_000);
    const started = performance.now();
    expect(Object.keys(read(text).bars)).toHaveLength(2001);
    expect(performance.now() - started).toBeLessThan(3000);
  });

  it("a list too wrong to be listed is answered, too", () => {
    const path = Array.from({ length: 150_000 }, () => [[], [], []]);
    const result = readJob({ ...head, tubes, bars: { hoop: { tube: "t", path } } });
    expect(!result.ok && result.problems.map(problemLine)).toEqual([
      "job: more is wrong than can be listed; is this a job file?",
    ]);
  });
});

describe("a plate's way", () => {
  const read = (along: unknown) =>
    readJob({ ...head, plates: { p: { at: [0, 0, 0], normal: [0, 0, 2], size: [120, 80], along } } });

  it("is taken square to its normal, of length 1", () => {
    const made = read([3, 0, 4]);
    expect(made.ok && made.job.plates.p).toMatchObject({ normal: [0, 0, 1], along: [1, 0, 0] });
  });

  it("cannot be nothing, nor the normal", () => {
    expect(read([0, 0, 0])).toMatchObject({
      problems: [{ place: "plates.p.along", code: "no-direction" }],
    });
    expect(read([0, 0, -1])).toMatchObject({
      problems: [
        {
          place: "plates.p.along",
          code: "along-normal",
        },
      ],
    });
  });
});
