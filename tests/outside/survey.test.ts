/**
 * Published networks, to the digits that they are printed with. Numbers retyped from F. Krumm, Geodetic Network
 * Adjustment Examples, rev. 3.5 (2020), which gives the books named at each; lengths there are metres or feet, the
 * survey does not mind. Plane networks lie in z = 0: each point has a height of 0 with an error of a thousandth.
 */
import { describe, expect, it } from "vitest";
import type { Reading } from "../../src/core/job/reading-types.ts";
import { normal, seeded } from "../../src/core/numeric/index.ts";
import type { Vec } from "../../src/core/space/index.ts";
import { surveyJob } from "../../src/core/survey/index.ts";
import {
  exact,
  height,
  heldAt,
  jobOf,
  off,
  out,
  shellOf,
  survey,
  tape,
  trueTape,
  UNKNOWN,
} from "../support/survey.ts";

/** Printed with so many decimals: half a unit of the last. */
const printed = (got: number | undefined | null, value: number, decimals: number): void => {
  expect(got).toBeDefined();
  expect(Math.abs(got! - value), `${got} is not ${value}`).toBeLessThanOrEqual(0.5001 * 10 ** -decimals);
};

const printedAt = (got: Vec | undefined, at: readonly number[], decimals: number): void => {
  at.forEach((c, i) => {
    printed(got?.[i], c, decimals);
  });
};

describe("Wolf 1979, p. 87: one point from four known ones", () => {
  const anchors = {
    1: exact(1200, 900, 900),
    2: exact(900, 600, 900),
    3: exact(600, 900, 900),
    4: exact(900, 1200, 900),
  };
  const lengths = [499.99, 500, 500.01, 500.02];
  const found = survey(
    { ...anchors, P: UNKNOWN },
    lengths.map((l, i) => tape(`${i + 1}`, "P", l, 0.01)),
  );

  it("stands where the book has it", () => {
    printedAt(found.points.get("P")?.at, [900.0167, 899.9833, 1300.0062], 4);
    printed(found.sigma0, 1, 3);
    expect(found.freedom).toBe(1);
    [5, -5, 5, -5].forEach((v, i) => {
      printed(found.readings[i]!.residual * 1000, v, 0);
    });
  });

  it("stands there too where each tape was held at another mark, which it reads more", () => {
    const held = survey(
      { ...anchors, P: UNKNOWN },
      lengths.map((l, i) => heldAt([100, 25.4, 3, 0][i]!, tape(`${i + 1}`, "P", l, 0.01))),
    );
    printedAt(held.points.get("P")?.at, [900.0167, 899.9833, 1300.0062], 4);
    printed(held.sigma0, 1, 3);
    [5, -5, 5, -5].forEach((v, i) => {
      const { residual, read, computed } = held.readings[i]!;
      printed(residual * 1000, v, 0);
      // what the others say is said as this tape would read it
      expect(read).toBeCloseTo(lengths[i]! + [100, 25.4, 3, 0][i]!, 9);
      expect(computed - read).toBeCloseTo(residual, 9);
    });
  });

  it("hangs from four marks in one plane, and its mirror image is named", () => {
    expect(found.mirrored).toHaveLength(1);
    printedAt(found.mirrored[0]!.points[0]!.other, [900.0167, 899.9833, 1800 - 1300.0062], 4);
    expect(found.mirrored[0]!.settle).toEqual({ kind: "height", point: "P" });
  });
});

describe("Blankenbach & Willert 2009: eight anchors, two slips", () => {
  const anchors: Readonly<Record<string, Vec>> = {
    51: [-8.62, 27.42, 10.29],
    37: [-4.95, 27.3, 10.04],
    31: [-4.85, 20.69, 10.51],
    102: [0.52, 22.59, 9.77],
    331: [-6.12, 25.48, 10.92],
    35: [0.45, 27.39, 10.75],
    103: [0.61, 17.19, 9.71],
    101: [-7.88, 22.45, 10.16],
  };
  const read: readonly (readonly [string, number])[] = [
    ["51", 8.2],
    ["37", 3.85],
    ["31", 4.35],
    ["102", 3.51],
    ["331", 3.98],
    ["35", 4.37],
    ["103", 8.17],
    ["101", 5.73],
  ];
  const points = { ...shellOf(anchors, {}).points, P: UNKNOWN };
  const found = survey(
    points,
    read.map(([id, length]) => tape(id, "P", length, 0.05)),
  );

  it("with both slips in it stands where the paper has it", () => {
    printedAt(found.points.get("P")?.at, [-2.3042, 24.3101, 9.5248], 4);
    printed(found.sigma0, 11.58, 2);
    expect(found.freedom).toBe(5);
    expect(found.test?.passed).toBe(false);
  });

  it("names 51 and then 103", () => {
    expect(found.suspects.map((s) => read[s.index]![0])).toEqual(["51", "103"]);
    expect(found.findings.filter((f) => f.code === "survey-suspect").map((f) => f.place)).toEqual([
      "readings[0]",
      "readings[6]",
    ]);
  });

  it("without them it stands where six good readings put it", () => {
    printedAt(found.cleaned.points.get("P")?.at, [-2.5077, 24.3202, 9.7753], 4);
    printed(found.cleaned.sigma0, 0.613, 3);
  });

  it("with every tape held at a mark it is the same place, and the same two slips", () => {
    const held = survey(
      points,
      read.map(([id, length], i) => heldAt(0.1 * (i + 1), tape(id, "P", length, 0.05))),
    );
    expect(held.suspects.map((s) => read[s.index]![0])).toEqual(["51", "103"]);
    printedAt(held.cleaned.points.get("P")?.at, [-2.5077, 24.3202, 9.7753], 4);
  });

  it.each([1, 2, 3, 4, 5])("in whatever order it is read (seed %i)", (seed) => {
    const random = seeded(seed);
    const mixed = read
      .map((r) => ({ r, at: random() }))
      .sort((a, b) => a.at - b.at)
      .map(({ r }) => r);
    const again = survey(
      points,
      mixed.map(([id, length]) => tape(id, "P", length, 0.05)),
    );
    expect(off(again.points.get("P")!.at, found.points.get("P")!.at)).toBeLessThan(1e-5);
    expect(again.suspects.map((s) => mixed[s.index]![0])).toEqual(["51", "103"]);
  });
});

const flat = (...ids: readonly string[]): readonly Reading[] => ids.map((id) => height(id, 0, 0.001));

describe("Ghilani, Adjustment Computations 5e, example 14.5: a trilateration with a slip", () => {
  const points = {
    Badger: exact(2410000, 390000, 0),
    Bucky: exact(2411820, 386881.222, 0),
    Wisconsin: UNKNOWN,
    Campus: UNKNOWN,
  };
  const network = (first: number): readonly Reading[] => [
    tape("Badger", "Wisconsin", first, 0.01),
    tape("Badger", "Campus", 7297.588, 0.01),
    tape("Wisconsin", "Campus", 3616.434, 0.01),
    tape("Wisconsin", "Bucky", 5742.878, 0.01),
    tape("Campus", "Bucky", 5123.76, 0.01),
    ...flat("Wisconsin", "Campus"),
  ];
  const found = survey(points, network(5870.302));

  it("stands where the book has it, with residuals far beyond their errors", () => {
    printedAt(found.points.get("Wisconsin")?.at, [2415776.9044, 391043.2945], 4);
    printedAt(found.points.get("Campus")?.at, [2416892.6955, 387603.2551], 4);
    printed(found.sigma0, 13.59, 2);
    expect(found.freedom).toBe(1);
  });

  it("one reading to spare cannot say which of five is wrong, and does not pretend to", () => {
    expect(found.suspects).toHaveLength(1);
    expect(found.suspects[0]).toMatchObject({ index: 0, among: [1, 2, 3, 4] });
    expect(found.findings.map((f) => f.code)).toContain("survey-suspect-among");
  });

  it("the first of them, left out, comes out as the other value that the file holds", () => {
    printed(found.suspects[0]!.computed, 5870.64, 2);
    expect(survey(points, network(5870.64)).suspects).toEqual([]);
  });
});

describe("Benning, example 8-2: five distances between four points", () => {
  const readings: readonly Reading[] = [
    tape("1", "3", 1000.02, 0.01),
    tape("1", "4", 1414.2, 0.01),
    tape("2", "3", 1414.24, 0.01),
    tape("2", "4", 999.98, 0.01),
    tape("3", "4", 1000, 0.01),
    ...flat("3", "4"),
  ];
  const points = { 1: exact(0, 1000, 0), 2: exact(1000, 1000, 0), 3: UNKNOWN, 4: UNKNOWN };
  // Distances alone do not say on which side of 1-2 the others lie. A rough measure out says it, and weighs next to nothing.
  const side = out("3", 0, 100);
  const found = survey(points, [...readings, side]);

  it("stands where the book has it", () => {
    printedAt(found.points.get("3")?.at, [-0.0096, -0.0226], 4);
    printedAt(found.points.get("4")?.at, [999.993, 0.0174], 4);
    [2.6, -3.68, -3.68, 2.6, 2.6].forEach((v, i) => {
      printed(found.readings[i]!.residual * 1000, v, 2);
    });
  });

  it("has the book's error of unit weight and its scaled standard deviations", () => {
    const plain = survey(points, readings);
    expect(plain.freedom).toBe(1);
    printed(plain.sigma0! * 0.01 * 1000, 6.882, 3);
    for (const id of ["3", "4"]) {
      const [x, y] = plain.points.get(id)!.sd;
      printed(x * plain.sigma0! * 100, 0.901, 3);
      printed(y * plain.sigma0! * 100, 0.637, 3);
    }
  });

  it("without the side both solutions are told, and the reading that settles it", () => {
    const plain = survey(points, readings);
    expect(plain.mirrored).toHaveLength(1);
    expect(plain.mirrored[0]!.points.map((p) => p.id)).toEqual(["3", "4"]);
    expect(plain.mirrored[0]!.settle).toEqual({ kind: "out", point: "3" });
    const both = [plain.mirrored[0]!.points[0]!.at[1], plain.mirrored[0]!.points[0]!.other[1]].sort(
      (a, b) => a - b,
    );
    printed(both[0], -0.0226, 4);
    printed(both[1], 2000.0226, 4);
  });
});

describe("squareness from tapes (trade-checks C5 and C25: geometry, computed independently)", () => {
  it("C5: a chord of 565.685 over marks at 400 and 400 is square, and 1 mm more opens the corner by 0.2026°", () => {
    const angle = (chord: number): number => {
      const points = { corner: exact(0, 0, 0), one: exact(400, 0, 0), other: UNKNOWN };
      const readings = [
        tape("corner", "other", 400),
        tape("one", "other", chord),
        out("other", 400, 100),
        ...flat("other"),
      ];
      const [x, y] = survey(points, readings).points.get("other")!.at;
      return (Math.atan2(y, x) * 180) / Math.PI;
    };
    expect(angle(565.685)).toBeCloseTo(90, 3);
    expect(angle(566.685)).toBeCloseTo(90.2026, 3);
  });

  it("C25: a rectangle 1200 wide whose cross tapes read 1625 and 1619 is racked by 4.06", () => {
    // The sides of a parallelogram: the squares of both diagonals together are twice those of both sides.
    const side = Math.sqrt((1625 ** 2 + 1619 ** 2) / 2 - 1200 ** 2);
    const points = { a: exact(0, 0, 0), b: exact(1200, 0, 0), c: UNKNOWN, d: UNKNOWN };
    const readings = [
      tape("a", "d", side),
      tape("b", "c", side),
      tape("c", "d", 1200),
      tape("a", "c", 1625),
      tape("b", "d", 1619),
      out("c", 1096, 100),
      ...flat("c", "d"),
    ];
    const found = survey(points, readings).points;
    printed(found.get("d")!.at[0], 4.055, 2);
    printed(found.get("c")!.at[0], 1204.055, 2);
  });
});

/** Where a tape alone puts a point, 800 times with errors by chance. */
function scatter(marks: Readonly<Record<string, Vec>>, P: Vec, seed: number) {
  const shell = shellOf(marks, { P });
  const ids = Object.keys(marks);
  const stated = survey(
    shell.points,
    ids.map((id) => tape(id, "P", trueTape(shell, id, "P"))),
  ).points.get("P")!.sd;
  const random = seeded(seed);
  const squares = [0, 0, 0];
  const many = 800;
  for (let n = 0; n < many; n++) {
    const readings = ids.map((id) => tape(id, "P", trueTape(shell, id, "P") + normal(random)));
    const { at } = surveyJob(jobOf(shell.points, readings)).points.get("P")!;
    at.forEach((c, i) => {
      squares[i]! += (c - P[i]!) ** 2 / many;
    });
  }
  return { stated, seen: squares.map(Math.sqrt) };
}

describe("a point of the shell from a tape good to 1 mm (trade-checks D5; its marks are not given, these are ours)", () => {
  const P: Vec = [100, 480, 1060];
  const close = { a: [60, 300, 0], b: [180, 330, 0], c: [110, 420, 0] } as const;
  const wide = { a: [-700, -250, 0], b: [900, -300, 0], c: [300, 900, 0] } as const;
  const turret = { ...wide, turret: [1495, 505, 640] } as const;

  it.each([
    ["three marks close together", close, 11],
    ["three wide", wide, 12],
    ["three wide and one on the turret", turret, 13],
  ] as const)("from %s scatters as much as is stated", (_, marks, seed) => {
    const { stated, seen } = scatter(marks, P, seed);
    stated.forEach((sd, i) => {
      // 800 trials know a standard deviation to 2.5 %.
      expect(Math.abs(seen[i]! / sd - 1)).toBeLessThan(0.08);
    });
  });

  it("close marks are several times worse than wide ones, and the turret helps most forward", () => {
    const of = (marks: Readonly<Record<string, Vec>>): Vec => {
      const shell = shellOf(marks, { P });
      const readings = Object.keys(marks).map((id) => tape(id, "P", trueTape(shell, id, "P")));
      return survey(shell.points, readings).points.get("P")!.sd;
    };
    const [far, near, more] = [of(wide), of(close), of(turret)];
    expect(Math.max(...near) / Math.max(...far)).toBeGreaterThan(5);
    [0, 1, 2].forEach((i) => {
      expect(more[i]!).toBeLessThan(far[i]!);
    });
  });
});
