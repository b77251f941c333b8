import { describe, expect, it } from "vitest";
import { readJob } from "../../src/core/job/index.ts";
import type { Reading } from "../../src/core/job/reading-types.ts";
import type { JobPoint } from "../../src/core/job/types.ts";
import { seeded } from "../../src/core/numeric/index.ts";
import { add, dist, mirrored, turn, unit, type Vec } from "../../src/core/space/index.ts";
import { type Survey, surveyJob, surveyJson } from "../../src/core/survey/index.ts";
import {
  disturbed,
  exact,
  height,
  jobOf,
  largeSurvey,
  off,
  out,
  survey,
  tape,
  tapedNet,
  UNKNOWN,
} from "../support/survey.ts";

const MARKS = ["a", "b", "c", "d", "e", "f"];
const TOPS = ["p", "q", "r", "s", "t"];

interface Made {
  readonly points: Readonly<Record<string, JobPoint>>;
  readonly truth: Readonly<Record<string, Vec>>;
  readonly readings: readonly Reading[];
}

/** Six marks in no one plane, five unknown points, each taped from five of them, with errors; one tape is 60 off. */
function made(seed: number): Made {
  const random = seeded(seed);
  const within = (low: number, high: number): number => Math.round(low + (high - low) * random());
  const points: Record<string, JobPoint> = {};
  const truth: Record<string, Vec> = {};
  MARKS.forEach((id, i) => {
    // Spread: front, rear and middle, left and right, low and high.
    const at: Vec = [
      900 * ((i % 3) - 1) + within(-150, 150),
      (i < 3 ? 600 : -600) + within(-100, 100),
      i % 2 === 0 ? within(0, 100) : within(600, 900),
    ];
    truth[id] = at;
    points[id] = exact(...at);
  });
  for (const id of TOPS) {
    truth[id] = [within(-600, 600), within(-500, 500), within(800, 1200)];
    points[id] = UNKNOWN;
  }
  const pairs = [
    ...TOPS.flatMap((top, k) => MARKS.filter((_, i) => i !== k).map((mark) => [mark, top] as const)),
    ["p", "q"] as const,
    ["r", "s"] as const,
  ];
  const slip = Math.floor(random() * pairs.length);
  const readings = disturbed(
    pairs.map(([x, y]) => tape(x, y, dist(truth[x]!, truth[y]!))),
    seed + 100,
  );
  return {
    points,
    truth,
    readings: readings.map((r, i) => (i === slip && r.kind === "tape" ? { ...r, length: r.length + 60 } : r)),
  };
}

const changed = (m: Made, place: (at: Vec) => Vec, reading: (r: Reading) => Reading): Survey => {
  const points = Object.entries(m.points).map(([id, p]) => [id, p.at ? { ...p, at: place(p.at) } : p]);
  return survey(Object.fromEntries(points), m.readings.map(reading));
};

/** Two surveys say the same but for where the points stand. */
function same(a: Survey, b: Survey, place: (at: Vec) => Vec, scale = 1): void {
  expect(b.points.size).toBe(a.points.size);
  for (const [id, p] of a.points) {
    expect(off(place(p.at), b.points.get(id)!.at)).toBeLessThan(1e-4 * scale);
    p.ellipsoid.axes.forEach((axis, k) => {
      expect(b.points.get(id)!.ellipsoid.axes[k]! / scale).toBeCloseTo(axis, 5);
    });
  }
  expect(b.sigma0!).toBeCloseTo(a.sigma0!, 6);
  expect(b.freedom).toBe(a.freedom);
  expect(b.suspects.map((s) => s.index)).toEqual(a.suspects.map((s) => s.index));
  a.readings.forEach((r, i) => {
    expect(b.readings[i]!.normalized!).toBeCloseTo(r.normalized!, 4);
    expect(b.readings[i]!.residual / scale).toBeCloseTo(r.residual, 4);
  });
}

describe.each([1, 2, 3, 4, 5, 6])("a survey with a slip in it (seed %i)", (seed) => {
  const m = made(seed);
  const plain = survey(m.points, m.readings);
  const stay = (at: Vec): Vec => at;

  it("finds the slip first (in seed 4 chance alone throws up another, of 3.8 sd)", () => {
    expect(plain.suspects).toHaveLength(seed === 4 ? 2 : 1);
    expect(plain.suspects[0]!.read - plain.suspects[0]!.computed).toBeGreaterThan(50);
    for (const [id, p] of plain.cleaned.points) {
      expect(off(p.at, m.truth[id]!)).toBeLessThan(4 * Math.hypot(...p.sd) + 1e-9);
    }
  });

  it("moves with the car", () => {
    const axis = unit([0.3, -0.5, 0.8]);
    const move = (at: Vec): Vec => add(turn(at, axis, 1.1), [3000, -200, 450]);
    same(
      plain,
      changed(m, move, (r) => r),
      move,
    );
  });

  it("is mirrored with it", () => {
    same(
      plain,
      changed(m, mirrored, (r) => r),
      mirrored,
    );
  });

  it("grows with it, errors and all", () => {
    const k = 25.4;
    const grow = (at: Vec): Vec => [k * at[0], k * at[1], k * at[2]];
    const longer = (r: Reading): Reading => (r.kind === "tape" ? { ...r, length: k * r.length, sd: k } : r);
    same(plain, changed(m, grow, longer), grow, k);
  });

  it("does not mind the order of readings or of points", () => {
    const random = seeded(seed + 7);
    const order = m.readings.map((_, i) => ({ i, at: random() })).sort((a, b) => a.at - b.at);
    const mixed = survey(
      Object.fromEntries(Object.entries(m.points).reverse()),
      order.map(({ i }) => m.readings[i]!),
    );
    for (const [id, p] of plain.points) expect(off(p.at, mixed.points.get(id)!.at)).toBeLessThan(1e-4);
    expect(mixed.suspects.map((s) => order[s.index]!.i)).toEqual(plain.suspects.map((s) => s.index));
  });

  it("does not mind which end of the tape is named first", () => {
    const turned = (r: Reading): Reading => (r.kind === "tape" ? { ...r, ends: [r.ends[1], r.ends[0]] } : r);
    same(plain, changed(m, stay, turned), stay);
  });

  it("is the same to the last digit typed in inches or in millimetres", () => {
    const typed = (length: (sixteenths: number) => unknown) => {
      const points = Object.entries(m.points).map(([id, p]) => [id, p.at ? [...p.at] : {}]);
      const readings = m.readings.flatMap((r) => {
        if (r.kind !== "tape") return [];
        const ends = r.ends.map((e) => (e.kind === "point" ? e.point : ""));
        return [{ tape: ends, length: length(Math.round((r.length / 25.4) * 16)) }];
      });
      const read = readJob({
        format: "tubewright job",
        version: 2,
        points: Object.fromEntries(points),
        readings,
      });
      if (!read.ok) throw new Error(JSON.stringify(read.problems));
      return surveyJson(surveyJob(read.job), { advice: (a) => a.kind, slip: (code) => code });
    };
    const inches = typed((n) => `${Math.floor(n / 16)} ${n % 16}/16 in`);
    expect(inches).toEqual(typed((n) => (n * 254) / 160));
  });
});

describe("scatter", () => {
  it("of a whole network is what its covariance says, and χ² has its mean (300 trials, seed 42)", () => {
    const marks: Readonly<Record<string, Vec>> = {
      a: [0, 0, 0],
      b: [1500, 100, 0],
      c: [200, 900, 0],
      d: [-500, -700, 300],
    };
    const truth: Readonly<Record<string, Vec>> = { ...marks, p: [300, 200, 1000], q: [900, 500, 800] };
    const points: Record<string, JobPoint> = { p: UNKNOWN, q: UNKNOWN };
    for (const [id, at] of Object.entries(marks)) points[id] = exact(...at);
    const readings = [
      ...["ap", "bp", "cp", "dp", "aq", "bq", "cq", "pq"].map(([x, y]) =>
        tape(x!, y!, dist(truth[x!]!, truth[y!]!), 1.5),
      ),
      height("q", 800, 2),
      out("p", 200, 3),
    ];
    const stated = survey(points, readings);
    const many = 300;
    const squares: Readonly<Record<string, number[]>> = { p: [0, 0, 0], q: [0, 0, 0] };
    let chi2 = 0;
    for (let n = 0; n < many; n++) {
      const found = surveyJob(jobOf(points, disturbed(readings, 42_000 + n)));
      chi2 += found.test!.chi2 / many;
      for (const [id, sums] of Object.entries(squares)) {
        found.points.get(id)!.at.forEach((c, i) => {
          sums[i]! += (c - truth[id]![i]!) ** 2 / many;
        });
      }
    }
    for (const [id, sums] of Object.entries(squares)) {
      stated.points.get(id)!.sd.forEach((sd, i) => {
        // 300 trials know a standard deviation to 4 %.
        expect(Math.abs(Math.sqrt(sums[i]!) / sd - 1)).toBeLessThan(0.13);
      });
    }
    // χ² with 4 degrees of freedom has mean 4, and over 300 trials an error of √(8/300).
    expect(stated.freedom).toBe(4);
    expect(Math.abs(chi2 - 4)).toBeLessThan(0.5);
  });
});

describe("sixty points, 240 readings, no start given", () => {
  it.each([
    ["heights", 1],
    ["heights", 2],
    ["heights", 3],
    ["tapes alone", 5],
    ["tapes alone", 6],
  ] as const)(
    "with %s they stand where they are, but for mirror images that are told (seed %i)",
    (kind, seed) => {
      const { points, truth, readings } = largeSurvey(seed, kind);
      const found = survey(points, readings);
      expect(found.test!.chi2).toBeLessThan(1.7 * found.freedom);
      const told = new Set(found.mirrored.flatMap((m) => m.points.map((p) => p.id)));
      for (const [id, p] of found.points) {
        const error = off(p.at, truth[Number(id.slice(1))]!);
        if (!told.has(id)) expect(error).toBeLessThan(1e-9 + 6 * Math.hypot(...p.sd));
      }
      expect(found.points.size + found.undetermined.length).toBe(60);
      expect(told.size).toBeLessThan(12);
    },
  );

  it("readings that fit nothing are not answered with places", () => {
    const { points, readings } = largeSurvey(7, "tapes alone");
    const random = seeded(8);
    const nonsense = readings.map((r) => (r.kind === "tape" ? { ...r, length: 200 + 2000 * random() } : r));
    const found = survey(points, nonsense);
    expect(found.converged).toBe(false);
    expect(found.points.size).toBe(0);
    expect(found.findings.map((f) => f.code)).toEqual(["survey-tangled"]);
  });
});

describe("nets of tapes alone, no start given", () => {
  /** Seeds of the nets with a point that stands elsewhere without a word, and of those with mirror images told. */
  const fifty = (first: number, ties: number) => {
    const wrong: number[] = [];
    const told: number[] = [];
    for (let seed = first; seed < first + 50; seed++) {
      const { points, truth, readings } = tapedNet(seed, 8, ties);
      const found = survey(points, readings);
      expect(found.converged).toBe(true);
      const images = new Set(found.mirrored.flatMap((m) => m.points.map((p) => p.id)));
      const astray = [...found.points].some(
        ([id, p]) => !images.has(id) && off(p.at, truth[id]!) > 1e-6 + 6 * Math.hypot(...p.sd),
      );
      if (astray) wrong.push(seed);
      if (images.size > 0) told.push(seed);
    }
    return { wrong, told };
  };

  it("with four tapes a point all of 50 stand where they are, but for mirror images that are told (seeds 1 to 50)", () => {
    const { wrong, told } = fifty(1, 4);
    expect(wrong).toEqual([]);
    expect(told.length).toBeLessThan(5);
  });

  it("with three a point, where nothing checks and mirror images abound, one of 50 goes astray unsaid (seeds 101 to 150)", () => {
    const { wrong, told } = fifty(101, 3);
    // Nothing is left to check by in it, and the point lies so nearly in the plane of its marks that it is told to ± 42.
    expect(wrong).toEqual([118]);
    expect(told.length).toBeGreaterThan(35);
  });
});
