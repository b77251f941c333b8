import { describe, expect, it } from "vitest";
import { barThrough } from "../../../tests/support/bend.ts";
import {
  disturbed,
  exact,
  fore,
  height,
  jobOf,
  known,
  lean,
  level,
  off,
  out,
  plumb,
  type Shell,
  shellOf,
  slope,
  survey,
  tape,
  trueTape,
  UNKNOWN,
} from "../../../tests/support/survey.ts";
import { IDS, say, saySlip } from "../../words/index.ts";
import type { Reading, TapeEnd } from "../job/reading-types.ts";
import { deg, rad } from "../numeric/index.ts";
import { dot, sub, type Vec } from "../space/index.ts";
import { writerFor } from "../units/index.ts";
import { attitudeOf } from "./attitude.ts";
import { surveyJson } from "./json.ts";
import { surveyJob } from "./survey.ts";
import type { Advice } from "./types.ts";

const writer = writerFor({ length: "mm", fraction: 16 });
const said = (found: {
  readonly findings: Parameters<typeof say>[0][] | readonly Parameters<typeof say>[0][];
}) => found.findings.map((f) => `${f.place}: ${say(f, writer, IDS)}`);
const codes = (found: ReturnType<typeof survey>) => found.findings.map((f) => f.code);

const MARKS: Readonly<Record<string, Vec>> = {
  a: [0, 0, 0],
  b: [1400, 60, 0],
  c: [300, 700, 0],
  d: [-600, -650, 15],
};
const TOPS: Readonly<Record<string, Vec>> = {
  post: [120, 610, 980],
  roof: [350, -80, 1130],
  cowl: [1090, 300, 720],
};
const shell = shellOf(MARKS, TOPS);

const tapesTo = (s: Shell, point: string, from = ["a", "b", "c", "d"]): readonly Reading[] =>
  from.map((mark) => tape(mark, point, trueTape(s, mark, point)));
const allTapes = [
  ...Object.keys(TOPS).flatMap((p) => tapesTo(shell, p)),
  tape("post", "roof", trueTape(shell, "post", "roof")),
  tape("roof", "cowl", trueTape(shell, "roof", "cowl")),
];

const standsAt = (found: ReturnType<typeof survey>, id: string, at: Vec, within = 1e-4): void => {
  expect(off(found.points.get(id)!.at, at)).toBeLessThan(within);
};

describe("readings without error", () => {
  it("give the places back, and agree", () => {
    const found = survey(shell.points, allTapes);
    for (const [id, at] of Object.entries(TOPS)) standsAt(found, id, at);
    expect(found.sigma0).toBeLessThan(1e-6);
    expect(found.freedom).toBe(14 - 9);
    expect(found.suspects).toEqual([]);
    expect(found.undetermined).toEqual([]);
    expect(codes(found)).toEqual([]);
  });

  it("of every kind tell of a shell that leans", () => {
    const [nose, side] = [1.3, -2.1];
    const { up } = attitudeOf(rad(nose), rad(side));
    const foot: Vec = [120 - 900 * up[0], 610 - 900 * up[1], 980 - 900 * up[2]];
    const across = sub([0, 1, 0], [up[0] * up[1], up[1] * up[1], up[2] * up[1]]);
    const even: Vec = [
      TOPS.post![0] - 400 * across[0],
      TOPS.post![1] - 400 * across[1],
      TOPS.post![2] - 400 * across[2],
    ];
    const stands = shellOf(MARKS, { ...TOPS, foot, even });
    const rise = dot(sub(TOPS.cowl!, TOPS.roof!), up);
    const angle = deg(Math.asin(rise / trueTape(stands, "roof", "cowl")));
    const readings = [
      ...tapesTo(stands, "post"),
      ...tapesTo(stands, "roof", ["a", "b", "c"]),
      height("roof", dot(TOPS.roof!, up)),
      lean("along", nose),
      lean("across", side),
      plumb("foot", "post"),
      tape("foot", "post", 900),
      level("even", "post"),
      fore("even", even[0]),
      out("even", even[1]),
      slope("roof", "cowl", angle),
      tape("roof", "cowl", trueTape(stands, "roof", "cowl")),
      tape("a", "cowl", trueTape(stands, "a", "cowl")),
    ];
    const found = survey(stands.points, [
      ...readings,
      tape("b", "cowl", trueTape(stands, "b", "cowl")),
      tape("d", "foot", trueTape(stands, "d", "foot")),
    ]);
    for (const id of ["post", "roof", "cowl", "foot", "even"]) standsAt(found, id, stands.truth[id]!, 1e-3);
    expect(found.sigma0).toBeLessThan(1e-4);
    expect(found.lean?.along?.angle).toBeCloseTo(nose, 5);
    expect(found.lean?.across?.angle).toBeCloseTo(side, 5);
    // Taken as level the same readings put the foot 900·sin of the lean elsewhere.
    const ignored = survey(
      stands.points,
      readings.filter((r) => r.kind !== "lean"),
    );
    expect(off(ignored.points.get("foot")!.at, foot)).toBeGreaterThan(15);
  });

  it("held on tubes give the same place as readings of points, radii taken off", () => {
    const post = barThrough([
      [0, 600, 0],
      [0, 600, 900],
      [0, -600, 900],
      [0, -600, 0],
    ]);
    const bars = new Map([["hoop", post]]);
    const at: Vec = [900, 150, 400];
    const tube = (along: number, over: "outside" | "inside"): TapeEnd => ({
      kind: "tube",
      bar: "hoop",
      along,
      over,
      bead: 0,
    });
    const corner: TapeEnd = { kind: "corner", bar: "hoop", bend: 1 };
    // The right leg's section at 300 up: station from A, and how far its middle is from the point in plan.
    const right = post.centreline.length - 300;
    const reach = (y: number, r: number): number => Math.hypot(Math.hypot(900, 150 - y) + r, 400 - 300);
    const readings = [
      tape(tube(300, "inside"), "P", reach(600, -22.5)),
      tape("P", tube(right, "outside"), reach(-600, 22.5)),
      tape(corner, "P", Math.hypot(900, 150 - 622.5, 400 - 922.5)),
    ];
    const found = survey({ P: UNKNOWN }, readings, bars);
    standsAt(found, "P", at);
    const lost = survey({ P: UNKNOWN }, readings);
    expect(codes(lost).filter((c) => c === "survey-bar-missing")).toHaveLength(3);
    expect(said(lost)[0]).toBe(
      "readings[0].tape[0]: left out: hoop has no geometry, and no tape can be held on it",
    );
  });
});

describe("residuals", () => {
  const readings = disturbed(allTapes, 3);
  const found = survey(shell.points, readings);

  it("redundancy is the share of an error that shows in the residual, as moving each reading shows (slow twin)", () => {
    readings.forEach((r, i) => {
      if (r.kind !== "tape") throw new Error("tapes alone");
      const moved = readings.map((o, k) => (k === i ? { ...r, length: r.length + 0.01 } : o));
      const share = -(survey(shell.points, moved).readings[i]!.residual - found.readings[i]!.residual) / 0.01;
      expect(found.readings[i]!.redundancy).toBeCloseTo(share, 3);
      expect(found.readings[i]!.normalized!).toBeCloseTo(found.readings[i]!.residual / Math.sqrt(share), 2);
    });
    const spare = found.readings.reduce((sum, r) => sum + r.redundancy, 0);
    expect(spare).toBeCloseTo(found.freedom, 9);
  });

  it("are computed less read", () => {
    found.readings.forEach((r) => {
      expect(r.residual).toBeCloseTo(r.computed - r.read, 9);
    });
    const at = found.points.get("post")!.at;
    expect(found.readings[0]!.computed).toBeCloseTo(Math.hypot(...at), 9);
  });

  it("of a plumb are how far apart in plan, of two equations", () => {
    const job = { ...shell.points, drop: UNKNOWN };
    const more = [
      plumb("drop", "post", 2),
      height("drop", 0),
      ...tapesTo(shellOf(MARKS, { drop: [123, 614, 0] }), "drop"),
    ];
    const plumbed = survey(job, [...readings, ...more]);
    const result = plumbed.readings[readings.length]!;
    const [p, q] = ["drop", "post"].map((id) => plumbed.points.get(id)!.at);
    expect(result.residual).toBeCloseTo(Math.hypot(p![0] - q![0], p![1] - q![1]), 9);
    expect(result.read).toBe(0);
    expect(plumbed.freedom).toBe(found.freedom + 2 + 1 + 4 - 3);
  });

  it("a place known with an error counts like three readings of it", () => {
    const about: Vec = [118, 613, 977];
    const asKnown = survey({ ...shell.points, post: known(about, 5) }, readings);
    const asRead = survey(shell.points, [
      ...readings,
      fore("post", about[0], 5),
      out("post", about[1], 5),
      height("post", about[2], 5),
    ]);
    expect(off(asKnown.points.get("post")!.at, asRead.points.get("post")!.at)).toBeLessThan(1e-6);
    expect(asKnown.sigma0).toBeCloseTo(asRead.sigma0!, 9);
    expect(asKnown.freedom).toBe(asRead.freedom);
    expect(asKnown.freedom).toBe(found.freedom + 3);
    expect(asKnown.readings).toHaveLength(readings.length);
  });

  it("struck readings do not count", () => {
    const struck = readings.map((r, i) => (i === 2 ? { ...r, length: 5, struck: true } : r));
    const without = survey(
      shell.points,
      readings.filter((_, i) => i !== 2),
    );
    const kept = survey(shell.points, struck);
    expect(kept.sigma0).toBe(without.sigma0);
    expect(kept.readings.map((r) => r.index)).not.toContain(2);
    expect(kept.readings.at(-1)!.index).toBe(readings.length - 1);
  });
});

describe("what points have in common", () => {
  it("gives each point's own covariance, and the error of the tape between two (slow twin: 400 trials)", () => {
    const { points, joint } = survey(shell.points, allTapes);
    expect(joint.ids).toEqual(["post", "roof", "cowl"]);
    joint.ids.forEach((id, k) => {
      for (const i of [0, 1, 2])
        expect(joint.covariance[3 * k + i]!.slice(3 * k, 3 * k + 3)).toEqual([
          ...points.get(id)!.covariance[i]!,
        ]);
    });
    const [a, b] = [TOPS.post!, TOPS.roof!];
    const d = sub(b, a).map((c) => c / off(a, b));
    const row = [...d.map((c) => -c), ...d, 0, 0, 0];
    const stated = Math.sqrt(
      row.reduce((s, x, i) => s + row.reduce((t, y, j) => t + x * y * joint.covariance[i]![j]!, 0), 0),
    );
    let squares = 0;
    for (let n = 0; n < 400; n++) {
      const again = survey(shell.points, disturbed(allTapes, 9000 + n)).points;
      squares += (off(again.get("post")!.at, again.get("roof")!.at) - off(a, b)) ** 2 / 400;
    }
    expect(Math.abs(Math.sqrt(squares) / stated - 1)).toBeLessThan(0.12);
    // Taken each for itself the two would seem far worse.
    const apart = Math.sqrt(
      d.reduce((s, c, i) => s + c * c * (joint.covariance[i]![i]! + joint.covariance[3 + i]![3 + i]!), 0),
    );
    expect(apart).toBeGreaterThan(1.3 * stated);
  });
});

describe("what places hang on", () => {
  const readings = [
    ...allTapes,
    height("post", 980),
    plumb("post", "roof", 300),
    slope("post", "cowl", -14, 0.3),
    lean("along", 0.2),
  ];
  const points = { ...shell.points, roof: known([355, -80, 1130], 6) };
  const { joint } = survey(points, readings);

  it("taken together is their covariance", () => {
    joint.covariance.forEach((row, i) => {
      row.forEach((v, j) => {
        const sum = joint.sources.reduce((s, { by }) => s + by[i]! * by[j]!, 0);
        expect(sum).toBeCloseTo(v, 9);
      });
    });
  });

  it("is how far a reading, or a given coordinate, moves them (slow twin: each moved by itself)", () => {
    const at = (found: ReturnType<typeof survey>) => joint.ids.flatMap((id) => [...found.points.get(id)!.at]);
    const here = at(survey(points, readings));
    const small = 0.01;
    for (const { of, sd, by } of joint.sources) {
      let again: ReturnType<typeof survey>;
      if ("point" in of) {
        const moved = [355, -80, 1130].map((v, i) => (i === of.axis ? v + small : v));
        again = survey({ ...points, roof: known(moved as unknown as Vec, 6) }, readings);
      } else {
        const reading = readings[of.reading]!;
        if (reading.kind === "plumb") continue;
        const field = reading.kind === "tape" ? "length" : reading.kind === "height" ? "value" : "angle";
        const moved = { ...reading, [field]: (reading as never)[field] + small } as Reading;
        again = survey(points, readings.with(of.reading, moved));
      }
      at(again).forEach((v, j) => {
        expect(((v - here[j]!) / small) * sd).toBeCloseTo(by[j]!, 2);
      });
    }
    expect(joint.sources.filter((s) => "point" in s.of)).toHaveLength(3);
    expect(
      joint.sources.filter((s) => "reading" in s.of && s.of.reading === allTapes.length + 1),
    ).toHaveLength(2);
  });
});

describe("the ellipsoid", () => {
  it("has the covariance's spread along each of its axes, which stand square", () => {
    const { covariance, ellipsoid, sd } = survey(shell.points, allTapes).points.get("roof")!;
    ellipsoid.directions.forEach((d, k) => {
      const along = Math.sqrt(dot(d, covariance.map((row) => dot(row, d)) as unknown as Vec));
      expect(along).toBeCloseTo(ellipsoid.axes[k]!, 9);
      expect(dot(d, d)).toBeCloseTo(1, 12);
      expect(dot(d, ellipsoid.directions[(k + 1) % 3]!)).toBeCloseTo(0, 9);
    });
    expect(ellipsoid.axes[0]).toBeGreaterThan(ellipsoid.axes[2]);
    expect(Math.hypot(...ellipsoid.axes)).toBeCloseTo(Math.hypot(...sd), 9);
  });
});

describe("readings that do not fit", () => {
  const slip = (index: number, change: (length: number) => number): readonly Reading[] =>
    disturbed(allTapes, 5).map((r, i) =>
      i === index && r.kind === "tape" ? { ...r, length: change(r.length) } : r,
    );

  it.each([0, 5, 9, 12])("one read 30 short is named (reading %i)", (index) => {
    const found = survey(
      shell.points,
      slip(index, (l) => l - 30),
    );
    expect(found.suspects.map((s) => s.index)).toEqual([index]);
    expect(Math.abs(found.suspects[0]!.computed - found.suspects[0]!.read - 30)).toBeLessThan(6);
    expect(found.cleaned.test?.passed).toBe(true);
    expect(said(found)[0]).toMatch(
      new RegExp(`^readings\\[${index}\\]: read the tape from \\w+ to \\w+ again: `),
    );
    // The places from all readings keep it.
    expect(found.readings.map((r) => r.index)).toContain(index);
  });

  it.each([
    [10, "cm", (l: number) => l / 10],
    [25.4, "in", (l: number) => l / 25.4],
    [0.1, "mm-as-cm", (l: number) => l * 10],
    [1 / 25.4, "mm-as-in", (l: number) => l * 25.4],
  ] as const)("one off by a factor %f is asked about: %s", (_, slipped, change) => {
    for (const index of [1, 6, 12]) {
      const found = survey(shell.points, slip(index, change));
      expect(found.suspects.map((s) => [s.index, s.slip])).toEqual([[index, slipped]]);
      expect(said(found)[0]).toContain(`Was it ${saySlip(slipped)}?`);
      for (const [id, at] of Object.entries(TOPS))
        expect(off(found.cleaned.points.get(id)!.at, at)).toBeLessThan(10);
    }
  });

  it("a unit is recognised even where one spare reading cannot outvote it", () => {
    const tapes = tapesTo(shell, "roof").map((r, i) =>
      i === 3 && r.kind === "tape" ? { ...r, length: r.length / 10 } : r,
    );
    const found = survey({ ...shellOf(MARKS, {}).points, roof: UNKNOWN }, tapes);
    expect(found.suspects.map((s) => [s.index, s.slip])).toEqual([[3, "cm"]]);
  });

  it("exact places that a reading contradicts", () => {
    const found = survey({ a: exact(0, 0, 0), b: exact(1000, 0, 0) }, [tape("a", "b", 985)]);
    expect(said(found)).toEqual([
      "readings[0]: check the tape from a to b and the places given: it reads 985.0 mm, the places make it 1000.0 mm. One of them is wrong",
    ]);
    expect(found.suspects.map((s) => s.index)).toEqual([0]);
  });

  it("a place given wrong", () => {
    const found = survey({ ...shell.points, post: known([150, 610, 980], 2) }, allTapes);
    expect(found.suspects).toEqual([]);
    expect(said(found)).toEqual([
      "points.post: check the place given for post: it comes out 30.0 mm away, its errors are given as 2.0 mm, 2.0 mm and 2.0 mm. The cleaned places leave it out",
    ]);
    expect(off(found.cleaned.points.get("post")!.at, TOPS.post!)).toBeLessThan(0.01);
  });

  it("errors stated far too small, with no one reading to blame", () => {
    const small = disturbed(allTapes, 1).map((r) => ({ ...r, sd: 0.5 }));
    const found = survey(shell.points, small);
    expect(found.suspects).toEqual([]);
    expect(codes(found)).toContain("survey-test");
  });

  it("two points at one place", () => {
    const found = survey({ ...shell.points, again: exact(...MARKS.a!) }, allTapes);
    expect(said(found)).toEqual(["points.again: check points a and again: they come out at one place"]);
  });

  it("a reading a hundred times beyond the car, where no least is reached, is named", () => {
    const found = survey(
      shell.points,
      slip(12, () => 1e6),
    );
    expect(found).toMatchObject({ converged: false, sigma0: null });
    expect(said(found)).toEqual([
      "readings[12]: look first at the tape from post to roof: no places suit these readings. Is its unit right, and are its points?",
    ]);
  });

  it("readings that nothing can be made of", () => {
    const found = survey(shell.points, [...allTapes, height("roof", 0, 1e-300)]);
    expect(found).toMatchObject({ converged: false, sigma0: null, readings: [], suspects: [] });
    expect(found.points.size).toBe(0);
    expect(codes(found)).toEqual(["survey-no-solution"]);
    expect(surveyJson(found, WORDS)).toMatchObject({ points: {}, undetermined: ["post", "roof", "cowl"] });
  });
});

describe("slips told apart", () => {
  const words = (readings: readonly Reading[]) => said(survey(shell.points, readings));
  it("a height left at 0 is asked about; a true one of 0 is not, whatever else is wrong", () => {
    expect(words([...allTapes, height("post", 0)])).toEqual([
      "readings[14]: read the height of post again: it reads 0.0 mm, the others say 980.0 mm. Was it left at 0?",
    ]);
    const floor = shellOf({ ...MARKS, e: [-400, 500, 600] }, { f: [500, 200, 0], post: TOPS.post! });
    const tapes = [
      ...tapesTo(floor, "f", ["a", "b", "c", "d", "e"]),
      ...tapesTo(floor, "post", ["a", "b", "c", "e"]),
    ];
    const slipped = tapes.map((r, i) => (i === 1 && r.kind === "tape" ? { ...r, length: r.length + 60 } : r));
    const found = survey(floor.points, [...slipped, height("f", 0)]);
    expect(found.suspects.map((s) => [s.index, s.slip])).toEqual([[1, undefined]]);
  });

  it("three tapes that meet nowhere: no place is made up for what the others say", () => {
    const short = ["a", "b", "c"].map((m) => tape(m, "post", 200));
    const lines = words(short).filter((l) => l.startsWith("readings["));
    expect(lines[0]).toMatch(
      /^readings\[\d\]: read the tape from \w to post again, and readings.*: it reads 200\.0 mm, and no place of post suits all of them$/,
    );
    expect(lines.join()).not.toContain("the others say");
  });

  it("of mirrored places left once a slip is out the one is taken that what was meant by it suits", () => {
    const tapes = tapesTo(shell, "post").map((r, i) =>
      i === 1 && r.kind === "tape" ? { ...r, length: r.length / 25.4 } : r,
    );
    const found = survey(shell.points, tapes);
    expect(off(found.cleaned.points.get("post")!.at, TOPS.post!)).toBeLessThan(1e-4);
    expect(found.suspects[0]).toMatchObject({ index: 1, slip: "in" });
    expect(found.suspects[0]!.computed).toBeCloseTo(trueTape(shell, "b", "post"), 3);
    expect(found.mirrored).toHaveLength(1);
  });
});

describe("too few readings", () => {
  it("a point with two tapes is named, with a reading that fixes it", () => {
    const found = survey(
      shell.points,
      allTapes.filter((_, i) => i > 1 && i < 12),
    );
    expect(found.undetermined.map((u) => [u.id, u.readings])).toEqual([["post", 2]]);
    expect(found.points.has("post")).toBe(false);
    const [fix] = found.undetermined[0]!.fix;
    expect(found.undetermined[0]!.fix).toHaveLength(1);
    const at = TOPS.post!;
    const taken: Reading =
      fix!.kind === "tape"
        ? tape(...fix!.points, trueTape(shell, ...fix!.points))
        : { kind: fix!.kind, point: fix!.point, value: at[{ fore: 0, out: 1, height: 2 }[fix!.kind]]! };
    const fixed = survey(shell.points, [...allTapes.filter((_, i) => i > 1 && i < 12), taken]);
    expect(fixed.undetermined).toEqual([]);
    expect(said(found)[0]).toMatch(/^points\.post: to place post take .*: it has too few readings \(2\)$/);
  });

  it("a point without any needs three", () => {
    const found = survey({ ...shell.points, lost: UNKNOWN }, allTapes);
    expect(found.undetermined).toMatchObject([{ id: "lost", readings: 0 }]);
    expect(found.undetermined[0]!.fix).toHaveLength(3);
    expect(found.points.size).toBe(7);
  });

  it("a point taped from marks in its own plane cannot be told up from down", () => {
    const flat = shellOf(
      { a: [0, 0, 0], b: [1400, 0, 0], c: [300, 700, 0], d: [900, -500, 0] },
      { P: [500, 250, 0] },
    );
    const found = survey(flat.points, tapesTo(flat, "P"));
    expect(found.undetermined.map((u) => u.id)).toEqual(["P"]);
    expect(found.undetermined[0]!.fix).toEqual([{ kind: "height", point: "P" }]);
  });

  it("nothing known of the car", () => {
    const found = survey({ p: UNKNOWN, q: UNKNOWN, r: UNKNOWN }, [
      tape("p", "q", 900),
      tape("q", "r", 800),
      tape("p", "r", 700),
    ]);
    expect(codes(found)).toContain("survey-no-datum");
    expect(found.undetermined.map((u) => u.id)).toEqual(["p", "q", "r"]);
    expect(found.points.size).toBe(0);
  });

  it("readings that no other checks are told", () => {
    const found = survey(
      shell.points,
      [...allTapes, tape("post", "a", 1162, 500)].concat(height("roof", 1130)),
    );
    expect(codes(found)).toEqual([]);
    const alone = survey(
      { ...shellOf(MARKS, {}).points, roof: UNKNOWN },
      tapesTo(shell, "roof", ["a", "b", "d"]),
    );
    expect(alone.readings.map((r) => r.normalized)).toEqual([null, null, null]);
    expect(alone.sigma0).toBeNull();
    expect(said(alone).at(-1)).toBe(
      "readings: no other reading checks these, and a slip in one would not show: readings[0], readings[1] and readings[2]",
    );
  });

  it("a lean read one way only is taken as level the other", () => {
    const found = survey(shell.points, [...allTapes, lean("along", 0.4)]);
    expect(said(found)).toContain(
      "readings: the shell's lean was read along only: the other way it is taken as level",
    );
  });

  it("no points, no readings: nothing to say", () => {
    const found = survey({}, []);
    expect(found).toMatchObject({
      converged: true,
      sigma0: null,
      freedom: 0,
      suspects: [],
      undetermined: [],
      findings: [],
    });
  });

  it("a bar without that bend, or shorter than that", () => {
    const bars = new Map([
      [
        "hoop",
        barThrough([
          [0, 0, 0],
          [0, 0, 900],
        ]),
      ],
    ]);
    const on = (end: object): TapeEnd => ({ bar: "hoop", over: "centre", bead: 0, ...end }) as TapeEnd;
    const found = surveyJob(
      jobOf(shell.points, [
        ...allTapes,
        tape(on({ kind: "tube", along: 950 }), "post", 900),
        tape("post", on({ kind: "corner", bend: 1 }), 900),
      ]),
      bars,
    );
    expect(said(found)).toEqual([
      "readings[14].tape[0]: left out: hoop is 900.0 mm long, and 950.0 mm is off its end",
      "readings[15].tape[1]: left out: hoop has 0 bends, and no bend 1",
    ]);
  });
});

describe("mirror images", () => {
  const floor = shellOf(
    { a: [0, 0, 0], b: [1400, 0, 0], c: [300, 700, 0] },
    { P: [500, 250, 900], Q: [100, -200, 1000] },
  );
  const readings = [
    ...tapesTo(floor, "P", ["a", "b", "c"]),
    ...tapesTo(floor, "Q", ["a", "b", "c"]),
    tape("P", "Q", trueTape(floor, "P", "Q")),
  ];

  it("of a point over three floor marks: it stands above, both are told, a rough height settles it", () => {
    const found = survey({ ...floor.points, Q: exact(100, -200, 0) }, readings.slice(0, 3));
    standsAt(found, "P", [500, 250, 900]);
    expect(found.mirrored).toHaveLength(1);
    expect(found.mirrored[0]!.points[0]!.other[2]).toBeCloseTo(-900, 3);
    expect(said(found)[0]).toBe(
      "points.P: take the height of P: P may as well be mirrored. P could be at x 500.0 mm, y 250.0 mm, z -900.0 mm instead of x 500.0 mm, y 250.0 mm, z 900.0 mm",
    );
    const settled = survey({ ...floor.points, Q: exact(100, -200, 0) }, [
      ...readings.slice(0, 3),
      height("P", -800, 200),
    ]);
    expect(settled.mirrored).toEqual([]);
    standsAt(settled, "P", [500, 250, -900], 1);
  });

  it("of two points that hang together over one plane", () => {
    const found = survey(floor.points, readings);
    standsAt(found, "P", [500, 250, 900]);
    expect(found.mirrored.map((m) => m.points.map((p) => p.id))).toEqual([["P", "Q"]]);
    const settled = survey(floor.points, [...readings, height("Q", 1040, 100)]);
    expect(settled.mirrored).toEqual([]);
  });
});

describe("the next best reading", () => {
  it("shrinks the errors as much as taking it does, and more than any other (slow twin)", () => {
    const { next, points } = survey(shell.points, allTapes);
    const trace = (found: ReturnType<typeof survey>): number =>
      Object.keys(TOPS).reduce((sum, id) => sum + found.points.get(id)!.sd.reduce((s, c) => s + c * c, 0), 0);
    const ids = Object.keys(shell.points);
    const taken = allTapes.map((r) =>
      r.kind === "tape"
        ? r.ends
            .map((e) => (e.kind === "point" ? e.point : ""))
            .sort()
            .join()
        : "",
    );
    const pairs = ids
      .flatMap((p, i) => ids.slice(i + 1).map((q) => [p, q] as const))
      .filter(([p, q]) => (p in TOPS || q in TOPS) && !taken.includes([p, q].sort().join()));
    const tries: readonly Reading[] = [
      ...pairs.map(([p, q]) => tape(p, q, trueTape(shell, p, q))),
      ...Object.entries(TOPS).flatMap(([id, at]) => [fore(id, at[0]), out(id, at[1]), height(id, at[2])]),
    ];
    const results = tries.map((reading) => ({
      reading,
      found: survey(shell.points, [...allTapes, reading]),
    }));
    const best = results.reduce((a, b) => (trace(b.found) < trace(a.found) - 1e-9 ? b : a));
    const named =
      best.reading.kind === "tape"
        ? best.reading.ends.map((e) => (e.kind === "point" ? e.point : "")).sort()
        : [best.reading.kind, "point" in best.reading ? best.reading.point : ""];
    const advised =
      next!.reading.kind === "tape"
        ? [...next!.reading.points].sort()
        : [next!.reading.kind, next!.reading.point];
    expect(advised).toEqual(named);
    expect(next!.before).toBeCloseTo(Math.hypot(...points.get(next!.point)!.sd), 9);
    expect(next!.after).toBeCloseTo(Math.hypot(...best.found.points.get(next!.point)!.sd), 6);
  });
});

describe("one place alone", () => {
  it("with an error, and read once: the weighted mean of the two, wherever it stands", () => {
    for (const far of [0, 100, 3000]) {
      const points = { a: { at: [far, 50, 20], sd: [2, 2, 2] } } as const;
      const found = survey(points, [{ kind: "fore", point: "a", value: far + 3, sd: 1 }]);
      const { at, sd } = found.points.get("a")!;
      // weights 1/4 and 1, by hand
      expect(at[0]).toBeCloseTo(far + 2.4, 6);
      expect(sd[0]).toBeCloseTo(Math.sqrt(0.8), 9);
      expect(at.slice(1)).toEqual([50, 20]);
      expect(found.freedom).toBe(1);
      expect(found.undetermined).toEqual([]);
    }
  });
});

/** Readings to take and slips by their codes. */
const WORDS = { advice: ({ kind }: Advice) => kind, slip: (code: string) => code };

describe("as JSON", () => {
  it("has the keys that are promised", () => {
    const readings = disturbed(allTapes, 5).map((r, i) =>
      i === 4 && r.kind === "tape" ? { ...r, length: r.length + 40 } : r,
    );
    const json = surveyJson(survey({ ...shell.points, lost: UNKNOWN }, readings), WORDS);
    const again = JSON.parse(JSON.stringify(json));
    expect(again.suspects).toEqual([4]);
    expect(again.undetermined).toEqual(["lost"]);
    expect(again.freedom).toBe(5);
    expect(again.sigma0).toBeGreaterThan(1);
    expect(again.points.post.at).toHaveLength(3);
    expect(again.points.a).toEqual({ at: [0, 0, 0], sd: [0, 0, 0] });
    expect(again.cleaned.post.sd).toHaveLength(3);
    expect(again.readings).toHaveLength(14);
    expect(Object.keys(again.readings[0])).toEqual(
      expect.arrayContaining(["index", "residual", "normalized"]),
    );
    expect(again.points.lost).toBeUndefined();
  });
});
