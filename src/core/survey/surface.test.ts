import { describe, expect, it } from "vitest";
import { seeded } from "../numeric/index.ts";
import { dist, dot, unit, type Vec } from "../space/index.ts";
import { meet, type Surface } from "./surface.ts";

const somewhere = (random: () => number): Vec => [1000 * random(), 1000 * random(), 1000 * random()];

const sphere = (at: Vec, random: () => number): Surface => {
  const centre = somewhere(random);
  return { kind: "sphere", centre, radius: dist(centre, at) };
};

const plane = (at: Vec, random: () => number): Surface => {
  const normal = unit([random() - 0.5, random() - 0.5, random() - 0.4]);
  return { kind: "plane", normal, offset: dot(normal, at) };
};

describe("three surfaces through one place", () => {
  const kinds = [
    ["three spheres", [sphere, sphere, sphere]],
    ["two spheres and a plane", [sphere, plane, sphere]],
    ["a sphere and two planes", [plane, sphere, plane]],
    ["three planes", [plane, plane, plane]],
  ] as const;
  describe.each(kinds)("%s", (_, make) => {
    it.each([1, 2, 3, 4, 5])("meet there (seed %i)", (seed) => {
      const random = seeded(seed);
      const at = somewhere(random);
      const found = meet([make[0](at, random), make[1](at, random), make[2](at, random)]);
      expect(Math.min(...found.map((f) => dist(f, at)))).toBeLessThan(1e-6);
    });
  });
});

describe("surfaces that do not meet", () => {
  const ball = (x: number, radius: number): Surface => ({ kind: "sphere", centre: [x, 0, 0], radius });
  const wall = (offset: number): Surface => ({ kind: "plane", normal: [1, 0, 0], offset });
  const floor: Surface = { kind: "plane", normal: [0, 0, 1], offset: 0 };

  it("give none where planes or centres line up", () => {
    expect(meet([wall(1), wall(2), floor])).toEqual([]);
    expect(meet([ball(0, 5), ball(3, 5), ball(6, 5)])).toEqual([]);
    expect(meet([ball(0, 5), ball(0, 6), floor])).toEqual([]);
  });

  it("give the place nearest to a sphere that is missed, twice", () => {
    const found = meet([wall(10), floor, ball(0, 5)]);
    expect(found).toHaveLength(2);
    for (const f of found) expect(dist(f, [10, 0, 0])).toBeLessThan(1e-9);
  });
});
