import { Matrix, solve as solveDense } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { frameOf, stiffOf } from "../../src/core/frame/build.ts";
import { stiffnessOf } from "../../src/core/frame/element.ts";
import { forceAside } from "../../src/core/frame/index.ts";
import { readyFrame } from "../../src/core/frame/solve.ts";
import type { Frame } from "../../src/core/frame/types.ts";
import { seeded } from "../../src/core/numeric/index.ts";
import { cross, sub, unit, type Vec } from "../../src/core/space/index.ts";
import { fittingFor } from "../support/fit.ts";

/** A frame of slender steel tubes against formulas of handbooks (all from memory) and against a dense solver. */
const TUBE = stiffOf({ od: 45, wall: 2.5 });
const EI = TUBE.bending;

/** Places joined in a row, held at the first (and at the last, if asked). */
const row = (nodes: readonly Vec[], both = false): Frame => ({
  nodes,
  members: nodes.slice(1).map((_, i) => ({ a: i, b: i + 1, of: TUBE })),
  held: both ? [0, nodes.length - 1] : [0],
});

/** Directions of a slanted set of axes, so that nothing is right only along the car's own. */
const X = unit([2, -1, 3]);
const Y = unit(cross(X, [0.3, 1, 0.2]));
const Z = cross(X, Y);
const at = (x: number, y = 0, z = 0): Vec =>
  [0, 1, 2].map((k) => x * X[k]! + y * Y[k]! + z * Z[k]!) as unknown as Vec;
const part = (v: Vec, d: Vec): number => v[0] * d[0] + v[1] * d[1] + v[2] * d[2];
const times = (d: Vec, k: number): Vec => [d[0] * k, d[1] * k, d[2] * k];

describe("textbook beams (S. Timoshenko, Strength of Materials)", () => {
  const [l, force] = [1200, 350];

  test("a cantilever: Pl³/3EI and Pl²/2EI at its end, whatever the side it is pushed to", () => {
    const ready = readyFrame(row([at(0), at(500), at(l)]))!;
    for (const d of [Y, Z, unit(at(0, 1, 2))]) {
      const end = ready.under([{ node: 2, force: times(d, force) }])[2]!;
      expect(part(end.shift, d) / ((force * l ** 3) / (3 * EI))).toBeCloseTo(1, 9);
      expect(Math.hypot(...end.turn) / ((force * l ** 2) / (2 * EI))).toBeCloseTo(1, 9);
    }
  });

  test("pulled and twisted: Pl/EA, Tl/GJ", () => {
    const ready = readyFrame(row([at(0), at(l)]))!;
    const end = ready.under([{ node: 1, force: times(X, force), moment: times(X, 9000) }])[1]!;
    expect(part(end.shift, X) / ((force * l) / TUBE.axial)).toBeCloseTo(1, 9);
    expect(part(end.turn, X) / ((9000 * l) / TUBE.torsion)).toBeCloseTo(1, 9);
  });

  test("held at both ends, pushed in the middle: Pl³/192EI", () => {
    const ready = readyFrame(row([at(0), at(l / 2), at(l)], true))!;
    const middle = ready.under([{ node: 1, force: times(Z, force) }])[1]!;
    expect(part(middle.shift, Z) / ((force * l ** 3) / (192 * EI))).toBeCloseTo(1, 9);
  });

  // Sway of a portal with fixed feet: k = (24EI/h³)(6k+1)/(6k+4), k = (I_beam/I_leg)(h/b) (A. K. Chopra, Dynamics of
  // Structures, example 1.1; the members there do not stretch).
  test("a portal on fixed feet sways as the handbook has it", () => {
    const [h, b] = [900, 1200];
    const frame: Frame = {
      nodes: [at(0), at(0, 0, h), at(b, 0, h), at(b)],
      members: [0, 1, 2].map((i) => ({ a: i, b: i + 1, of: { ...TUBE, axial: TUBE.axial * 1e5 } })),
      held: [0, 3],
    };
    const k = h / b;
    const stiff = ((24 * EI) / h ** 3) * ((6 * k + 1) / (6 * k + 4));
    const got = readyFrame(frame)!.under([{ node: 1, force: times(X, force) }])[1]!;
    expect((part(got.shift, X) * stiff) / force).toBeCloseTo(1, 4);
  });

  // A quarter of a circle, one end fixed (Castigliano): pulled toward its centre πPR³/4EI; pushed square to its plane
  // PR³ (π/4EI + (3π/4 − 2)/GJ) (W. C. Young, Roark's Formulas, curved beams).
  test("a quarter bend as chords comes to the curved beam's formulas", () => {
    const R = 600;
    const n = 90;
    const bend = Array.from({ length: n + 1 }, (_, i) => {
      const a = (i * Math.PI) / 2 / n;
      return at(R * Math.sin(a), R * (1 - Math.cos(a)));
    });
    const slim = { ...TUBE, axial: TUBE.axial * 1e5 };
    const ready = readyFrame({ ...row(bend), members: row(bend).members.map((m) => ({ ...m, of: slim })) })!;
    const inPlane = ready.under([{ node: n, force: times(X, -force) }])[n]!;
    expect(part(inPlane.shift, X) / ((-Math.PI * force * R ** 3) / (4 * EI))).toBeCloseTo(1, 3);
    const across = ready.under([{ node: n, force: times(Z, force) }])[n]!;
    const sure = force * R ** 3 * (Math.PI / 4 / EI + ((3 * Math.PI) / 4 - 2) / TUBE.torsion);
    expect(part(across.shift, Z) / sure).toBeCloseTo(1, 3);
  });
});

describe("springing a U open (common practice, no source; F = δEI/(2l³/3 + l²b), bending alone)", () => {
  test.each([
    [45, 2.5, 518],
    [40, 2, 296],
  ])("%i × %f, legs 400, base 855, 6 mm: %i N", (od, wall, newton) => {
    const of = { ...stiffOf({ od, wall }), axial: stiffOf({ od, wall }).axial * 1e5 };
    const nodes = [at(400), at(0), at(0, 427.5), at(0, 855), at(400, 855)];
    const ready = readyFrame({
      nodes,
      members: [0, 1, 2, 3].map((i) => ({ a: i, b: i + 1, of })),
      held: [2],
    })!;
    const moved = ready.under([
      { node: 0, force: times(Y, -1) },
      { node: 4, force: Y },
    ]);
    const opening = part(sub(moved[4]!.shift, moved[0]!.shift), Y);
    expect(6 / opening).toBeCloseTo(newton, -0.3);
  });
});

describe("laws", () => {
  test("a member's stiffness is symmetric, and moving it as a whole takes no force", () => {
    const [a, b] = [at(0), at(700, 30, -40)];
    const k = stiffnessOf(a, b, TUBE);
    const size = Math.max(...k.map(Math.abs));
    for (let i = 0; i < 12; i++) {
      for (let j = 0; j < 12; j++)
        expect(Math.abs(k[12 * i + j]! - k[12 * j + i]!) / size).toBeLessThan(1e-12);
    }
    for (let way = 0; way < 6; way++) {
      const d = [0, 1, 2].map((q) => (q === way % 3 ? 1 : 0)) as unknown as Vec;
      const u = way < 3 ? [...d, 0, 0, 0, ...d, 0, 0, 0] : [...cross(d, a), ...d, ...cross(d, b), ...d];
      for (let i = 0; i < 12; i++) {
        const f = u.reduce((sum, v, j) => sum + k[12 * i + j]! * v, 0);
        expect(Math.abs(f) / size / 700).toBeLessThan(1e-12);
      }
    }
  });

  test("what is not held is not answered", () => {
    expect(readyFrame({ ...row([at(0), at(500)]), held: [] })).toBeUndefined();
  });

  test("a frame of many bars, any loads: the same as a dense solver, and as much here from there as there from here", () => {
    const random = seeded(8);
    for (let n = 0; n < 12; n++) {
      const nodes = Array.from({ length: 14 }, (): Vec => [random() * 900, random() * 900, random() * 900]);
      const members = [
        ...nodes.slice(1).map((_, i) => ({ a: Math.floor(random() * (i + 1)), b: i + 1, of: TUBE })),
        ...Array.from({ length: 8 }, () => ({
          a: Math.floor(random() * 7),
          b: 7 + Math.floor(random() * 7),
          of: TUBE,
        })),
      ];
      const frame: Frame = { nodes, members, held: [0, 5] };
      const dense = Matrix.zeros(84, 84);
      for (const { a, b, of } of members) {
        const k = stiffnessOf(nodes[a]!, nodes[b]!, of);
        const dof = [...Array(12).keys()].map((i) => 6 * (i < 6 ? a : b) + (i % 6));
        dof.forEach((p, i) => {
          dof.forEach((q, j) => {
            dense.set(p, q, dense.get(p, q) + k[12 * i + j]!);
          });
        });
      }
      for (const h of [0, 5]) for (let i = 6 * h; i < 6 * h + 6; i++) dense.set(i, i, 1e15);
      const load = Matrix.zeros(84, 1);
      load.set(6 * 9, 0, 100);
      load.set(6 * 11 + 4, 0, 5e4);
      const want = solveDense(dense, load);
      const ready = readyFrame(frame)!;
      const got = ready.under([
        { node: 9, force: [100, 0, 0] },
        { node: 11, force: [0, 0, 0], moment: [0, 5e4, 0] },
      ]);
      const size = Math.max(...want.to1DArray().map(Math.abs));
      got.forEach(({ shift, turn }, i) => {
        [...shift, ...turn].forEach((v, q) => {
          expect(Math.abs(v - want.get(6 * i + q, 0)) / size).toBeLessThan(1e-6);
        });
      });
      const here = ready.under([{ node: 9, force: [1, 0, 0] }])[11]!.shift[2];
      const there = ready.under([{ node: 11, force: [0, 0, 1] }])[9]!.shift[0];
      expect(Math.abs(here - there)).toBeLessThan(1e-9 * Math.abs(size));
    }
  });
});

describe("a job's bars as a frame", () => {
  const hoop = (more: object = {}) =>
    fittingFor({
      format: "tubewright job",
      version: 2,
      tubes: { t: { od: 45, wall: 2.5 } },
      dies: { d: { od: 45, clr: 135 } },
      plates: {
        l: { at: [0, 600, 0], normal: [0, 0, 1] },
        r: { at: [0, -600, 0], normal: [0, 0, 1] },
      },
      bars: {
        hoop: { tube: "t", die: "d", path: [{ plate: "l" }, [0, 600, 900], [0, -600, 900], { plate: "r" }] },
        ...more,
      },
    }).bars.map((b) => b.bar);

  test("a hoop stands on its plates, its bends in chords", () => {
    const { frame } = frameOf(hoop());
    expect(frame.held).toHaveLength(2);
    expect(frame.nodes.length).toBe(22);
    const between = (a: number, b: number): number => Math.hypot(...sub(frame.nodes[a]!, frame.nodes[b]!));
    const length = frame.members.reduce((sum, m) => sum + between(m.a, m.b), 0);
    expect(length / hoop()[0]!.centreline.length).toBeCloseTo(1, 3);
  });

  // The legs apart by 1 mm a side at mid height: far more by the feet than high up, and more with a bar across.
  const asides = (z: number) =>
    [1, -1].map((side) => ({ id: "hoop", at: [0, side * 577.5, z] as Vec, dir: [0, side, 0] as Vec, by: 1 }));

  test("pushing its legs apart takes more by its feet, and more with a bar across", () => {
    const low = forceAside(hoop(), asides(150))!;
    const high = forceAside(hoop(), asides(450))!;
    const across = {
      across: {
        tube: "t",
        path: [
          { on: "hoop", z: 600, near: "left" },
          { on: "hoop", z: 600, near: "right" },
        ],
      },
    };
    const braced = forceAside(hoop(across), asides(450))!;
    expect(low).toBeGreaterThan(2 * high);
    expect(braced).toBeGreaterThan(1.5 * high);
    // Held at 0 and, at most, as if at 765 too: 192EI/l³ bounds a leg from above; a free leg, 3EI/l³, from below.
    expect(high).toBeLessThan((192 * EI) / 765 ** 3);
    expect(high).toBeGreaterThan((3 * EI) / 450 ** 3 / 4);
  });

  test("linear: twice as far, twice the force; nothing to push, none; not on a plate, none", () => {
    const one = forceAside(hoop(), asides(450))!;
    expect(
      forceAside(
        hoop(),
        asides(450).map((a) => ({ ...a, by: 2 })),
      )! / one,
    ).toBeCloseTo(2, 9);
    expect(forceAside(hoop(), [])).toBeUndefined();
    const loose = {
      loose: {
        tube: "t",
        path: [
          [500, 0, 0],
          [500, 0, 800],
        ],
      },
    };
    expect(
      forceAside(hoop(loose), [{ id: "loose", at: [522.5, 0, 400], dir: [1, 0, 0], by: 1 }]),
    ).toBeUndefined();
  });
});
