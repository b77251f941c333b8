import { describe, expect, it } from "vitest";
import { deg } from "../numeric/index.ts";
import { dist, mirrored, type Vec } from "../space/index.ts";
import { centrelineOf, mirroredLine, placeAt, reversed } from "./index.ts";

const named = { bar: "b", place: "bars.b.path" };
const build = (nodes: readonly Vec[], clr?: number) => {
  const built = centrelineOf(nodes, clr, named);
  if (!built.ok) throw new Error(built.findings.map((f) => f.code).join());
  return built.centreline;
};
const codes = (nodes: readonly Vec[], clr?: number): string[] => {
  const built = centrelineOf(nodes, clr, named);
  return built.ok ? [] : built.findings.map((f) => f.code);
};

/** Worked values of geometry.md, "A bar", computed independently. */
const WORKED: readonly {
  nodes: readonly Vec[];
  clr: number;
  straights: readonly number[];
  angles: readonly number[];
  rotation: number;
  length: number;
}[] = [
  {
    nodes: [
      [0, 600, 0],
      [0, 600, 900],
      [0, -600, 900],
      [0, -600, 0],
    ],
    clr: 135,
    straights: [765, 930, 765],
    angles: [90, 90],
    rotation: 0,
    length: 2884.115,
  },
  {
    nodes: [
      [0, 0, 0],
      [500, 0, 0],
      [500, 400, 0],
      [500, 400, 300],
    ],
    clr: 100,
    straights: [400, 200, 200],
    angles: [90, 90],
    rotation: 90,
    length: 1114.1593,
  },
  {
    nodes: [
      [0, 0, 0],
      [600, 0, 0],
      [1100, 300, 120],
      [1500, 300, 500],
    ],
    clr: 115,
    straights: [566.0758, 517.7022, 508.0359],
    angles: [32.8713, 41.6037],
    rotation: 105.609,
    length: 1741.295,
  },
];

describe("a centreline from its corners", () => {
  it.each(WORKED)("worked: L $length", ({ nodes, clr, straights, angles, rotation, length }) => {
    const line = build(nodes, clr);
    expect(Math.abs(line.length - length)).toBeLessThan(1e-4);
    expect(line.bends.map((b) => Number(deg(b.angle).toFixed(4)))).toEqual(angles);
    expect(
      [...line.bends.map((b) => b.straightBefore), line.lastStraight].map((s) => Number(s.toFixed(4))),
    ).toEqual(straights);
    expect(Number(deg(line.bends[1]!.rotation).toFixed(4))).toBe(rotation);
  });

  it("joins without a step: each piece starts where the one before ends, in its direction", () => {
    for (const { nodes, clr } of WORKED) {
      const line = build(nodes, clr);
      for (const piece of line.pieces.slice(1)) {
        const before = placeAt(line, piece.s0 - 1e-7);
        const after = placeAt(line, piece.s0 + 1e-7);
        expect(dist(before.at, after.at)).toBeLessThan(1e-6);
        expect(dist(before.dir, after.dir)).toBeLessThan(1e-6);
      }
      expect(dist(placeAt(line, line.length).at, line.finish)).toBeLessThan(1e-9);
    }
  });

  it("run from B: rotations keep their sign and turn their order round", () => {
    const line = build(
      [
        [0, 0, 0],
        [400, 0, 0],
        [700, 300, 0],
        [700, 500, 400],
        [1100, 600, 700],
      ],
      90,
    );
    const back = reversed(line);
    const rotations = line.bends.map((b) => b.rotation);
    expect(back.bends.map((b) => b.rotation).slice(1)).toEqual(rotations.slice(1).reverse());
    expect(back.bends.map((b) => b.angle)).toEqual(line.bends.map((b) => b.angle).reverse());
    for (const s of [0, 100, 333, 700, line.length]) {
      expect(dist(placeAt(back, line.length - s).at, placeAt(line, s).at)).toBeLessThan(1e-9);
    }
    const rebuilt = build(
      [
        ...([
          [0, 0, 0],
          [400, 0, 0],
          [700, 300, 0],
          [700, 500, 400],
          [1100, 600, 700],
        ] as Vec[]),
      ].reverse(),
      90,
    );
    rebuilt.bends.forEach((b, i) => {
      expect(Math.abs(b.rotation - back.bends[i]!.rotation)).toBeLessThan(1e-12);
      expect(Math.abs(b.start - back.bends[i]!.start)).toBeLessThan(1e-9);
      expect(dist(b.arc.n, back.bends[i]!.arc.n)).toBeLessThan(1e-12);
    });
  });

  it("mirrored: rotations change sign, lengths stay; the same as building it from mirrored corners", () => {
    const nodes: Vec[] = [
      [0, 20, 0],
      [400, 20, 0],
      [700, 320, 0],
      [700, 520, 400],
    ];
    const twin = mirroredLine(build(nodes, 90), mirrored);
    const built = build(nodes.map(mirrored), 90);
    expect(twin.length).toBe(built.length);
    twin.bends.forEach((b, i) => {
      expect(Math.abs(b.rotation - built.bends[i]!.rotation)).toBeLessThan(1e-12);
      expect(dist(b.arc.n, built.bends[i]!.arc.n)).toBeLessThan(1e-12);
    });
    for (const s of [0, 350, 480, 800, twin.length])
      expect(dist(placeAt(twin, s).at, placeAt(built, s).at)).toBeLessThan(1e-9);
  });
});

describe("degenerate centrelines, each with its answer", () => {
  it("two nodes in one place have no direction between them", () => {
    expect(
      codes(
        [
          [0, 0, 0],
          [0, 0, 0.0005],
          [100, 0, 0],
        ],
        50,
      ),
    ).toContain("corner-coincident");
  });
  it("a corner that folds back", () => {
    expect(
      codes(
        [
          [0, 0, 0],
          [500, 0, 0],
          [100, 0, 0],
        ],
        50,
      ),
    ).toEqual(["corner-folds"]);
  });
  it("a corner without a die", () => {
    expect(
      codes([
        [0, 0, 0],
        [500, 0, 0],
        [500, 300, 0],
      ]),
    ).toEqual(["die-missing"]);
  });
  it("a corner under 0.001° is no bend and wants no die", () => {
    expect(
      build([
        [0, 0, 0],
        [500, 0, 0],
        [1000, 0.008, 0],
      ]).bends,
    ).toEqual([]);
    expect(
      build(
        [
          [0, 0, 0],
          [500, 0, 0],
          [1000, 0.01, 0],
        ],
        100,
      ).small.length,
    ).toBe(1);
  });
  it("a straight of just 0 is allowed, one shorter is not, and says by how much", () => {
    const nodes = (w: number): Vec[] => [
      [0, 0, 0],
      [400, 0, 0],
      [400, w, 0],
      [0, w, 0],
    ];
    const u = build(nodes(200), 100);
    expect(u.bends[0]!.straightBefore).toBeCloseTo(300, 9);
    expect(u.bends[1]!.straightBefore).toBeCloseTo(0, 9);
    expect(u.bends[1]!.rotation).toBe(0);
    const built = centrelineOf(nodes(190), 100, named);
    expect(built.ok).toBe(false);
    if (!built.ok) {
      expect(built.findings[0]!.code).toBe("straight-short");
      expect((built.findings[0]!.values.missing as { mm: number }).mm).toBeCloseTo(10, 9);
      expect(built.findings[0]!.values.leg).toEqual({ count: 2 });
    }
  });
  it("a flat Z turns half round: +180°, never −180°, whichever way it lies", () => {
    // The bar of a published XYZ table (freemathhelp.com thread 111090) is such a Z.
    const z: Vec[] = [
      [38.5202, -14.0264, 0],
      [45.3142, -14.0264, 0],
      [45.3142, -17.5214, 0.9654],
      [48.6822, -17.5214, 0.9654],
    ];
    for (const nodes of [z, z.map(mirrored), [...z].reverse()]) {
      const line = build(nodes, 1);
      expect(line.bends.map((b) => Number(deg(b.angle).toFixed(9)))).toEqual([90, 90]);
      expect(line.bends[1]!.rotation).toBe(Math.PI);
    }
  });
});
