import { describe, expect, it } from "vitest";
import { centrelineOf } from "../bar/index.ts";
import type { Vec } from "../space/index.ts";
import { sectionOf } from "../tube/index.ts";
import { springForce } from "./spring.ts";

const lineOf = (corners: readonly Vec[], clr: number) => {
  const built = centrelineOf(corners, clr, { bar: "u", place: "bars.u" });
  if (!built.ok) throw new Error(JSON.stringify(built.findings));
  return built.centreline;
};
const E = 205_000;
const G = E / 2.6;

describe("the force that springs a bar open", () => {
  it("trade-checks C5: a U of legs 400 and base 855, 6 mm: 518 N for 45 × 2.5, 296 N for 40 × 2", () => {
    const u = lineOf(
      [
        [0, 0, 0],
        [0, 0, 400],
        [0, 855, 400],
        [0, 855, 0],
      ],
      0.01,
    );
    expect(springForce(u, { od: 45, wall: 2.5 }, 6)).toBeCloseTo(518, 0);
    expect(springForce(u, { od: 40, wall: 2 }, -6)).toBeCloseTo(296, 0);
    expect(springForce(u, { od: 40, wall: 2 }, 3)).toBeCloseTo(148, 0);
  });

  it("half a ring of radius R: 2·EI·δ/(πR³) (curved bar by the unit load method, textbook result)", () => {
    const [R, tube] = [300, { od: 40, wall: 2 }];
    const ring = lineOf(
      [
        [0, 0, 0],
        [0, 0, R],
        [0, 2 * R, R],
        [0, 2 * R, 0],
      ],
      R,
    );
    const exact = (2 * E * sectionOf({ od: 40, wall: 2 }).inertia * 5) / (Math.PI * R ** 3);
    expect(springForce(ring, tube, 5) / exact).toBeCloseTo(1, 6);
  });

  it("three legs square to each other also twist: integrals by hand, (2/3)L³/EI + L³/(3·GI_t)", () => {
    const L = 500;
    const three = lineOf(
      [
        [0, 0, 0],
        [L, 0, 0],
        [L, L, 0],
        [L, L, L],
      ],
      0.01,
    );
    const { inertia, torsion } = sectionOf({ od: 38, wall: 2.5 });
    const softness = (2 * L ** 3) / 3 / (E * inertia) + L ** 3 / 3 / (G * torsion);
    expect(springForce(three, { od: 38, wall: 2.5 }, 4) * softness).toBeCloseTo(4, 3);
  });

  it("a straight bar does not spring lengthwise, whichever way it lies", () => {
    for (const far of [
      [900, 0, 0],
      [300, -400, 77],
    ] as Vec[])
      expect(springForce(lineOf([[0, 0, 0], far], 100), { od: 40, wall: 2 }, 1)).toBe(
        Number.POSITIVE_INFINITY,
      );
  });

  it("grows as the fourth power of the size, falls as the third of the length", () => {
    const u = (k: number) =>
      lineOf(
        [
          [0, 0, 0],
          [0, 0, 300 * k],
          [0, 600 * k, 300 * k],
          [0, 600 * k, 0],
        ],
        120 * k,
      );
    const force = (k: number) => springForce(u(k), { od: 40 * k, wall: 2 * k }, 2);
    expect(force(2) / force(1)).toBeCloseTo(2, 9);
  });
});
