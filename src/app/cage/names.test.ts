import { describe, expect, it } from "vitest";
import { chiSquareLimit } from "../../core/estimate/index.ts";
import { rad, seeded } from "../../core/numeric/index.ts";
import { cross, dot, type Vec } from "../../core/space/index.ts";
import { ellipsoidOf } from "../../core/survey/ellipsoid.ts";
import { axesOf, type Camera, directionOf } from "./camera.ts";
import { ellipseOf, NINETY_FIVE } from "./ellipse.ts";
import { pickPoint, sightAt } from "./pick.ts";
import { seenAt } from "./project.ts";
import { around, type Box, thinned, type Wanted } from "./thin.ts";

const camera: Camera = { az: 33, el: 18, target: [100, -50, 600], height: 2000, perspective: 1 };
const size = [900, 700] as const;

describe("where a place is seen", () => {
  it("the line of sight through where a place is seen goes through the place (seed 41)", () => {
    const random = seeded(41);
    for (const perspective of [0, 0.5, 1]) {
      for (let i = 0; i < 50; i++) {
        const p: Vec = [3000 * random() - 1500, 2000 * random() - 1000, 1500 * random()];
        const of = { ...camera, az: 360 * random() - 180, el: 180 * random() - 90, perspective };
        const seen = seenAt(of, p, size)!;
        const sight = sightAt(of, seen.x - size[0] / 2, size[1] / 2 - seen.y, size[1]);
        const w: Vec = [p[0] - sight.from[0], p[1] - sight.from[1], p[2] - sight.from[2]];
        const off = cross(w, sight.dir);
        expect(Math.hypot(...off)).toBeLessThan(1e-6);
      }
    }
  });

  it("nothing is seen behind the eye", () => {
    const { toward } = axesOf(camera);
    expect(seenAt(camera, [toward[0] * 1e5, toward[1] * 1e5, toward[2] * 1e5], size)).toBeUndefined();
  });

  it("a tap takes the nearest point within reach, and none that is not seen", () => {
    const left = { ...directionOf("left"), target: [0, 0, 0] as const, height: 700, perspective: 0 };
    const points = { a: { at: [0, 0, 0] }, b: { at: [-40, 0, 0] }, c: { at: [0, 500, 0] } } as const;
    const seen = (p: Vec) => seenAt(left, p, size);
    expect(pickPoint(points, seen, [475, 350], 34)).toBe("b");
    expect(pickPoint({ a: points.a }, seen, [475, 350], 34)).toBe("a");
    expect(pickPoint(points, seen, [530, 350], 34)).toBeUndefined();
    expect(pickPoint(points, (p) => (p[0] < 0 ? undefined : seen(p)), [475, 350], 20)).toBeUndefined();
  });
});

describe("the ring round a point", () => {
  const covariance = [
    [9, 4, -1],
    [4, 6, 2],
    [-1, 2, 3],
  ] as const;

  it("holds 95 of 100: the root of the 95 % point of chi square with three degrees of freedom", () => {
    expect(NINETY_FIVE ** 2).toBeCloseTo(chiSquareLimit(0.95, 3), 2);
  });

  it("is the outline of the body: no place on the body is seen beyond it, and some touch it (seed 7)", () => {
    const random = seeded(7);
    const { axes, directions } = ellipsoidOf(covariance);
    for (const view of [camera, directionOf("top"), directionOf("front"), { az: -120, el: -41 }]) {
      const picture = axesOf(view);
      const { major, minor, turn } = ellipseOf(covariance, picture);
      let most = 0;
      for (let i = 0; i < 20_000; i++) {
        const [a, b] = [2 * Math.PI * random(), 2 * random() - 1];
        const unit = [Math.sqrt(1 - b * b) * Math.cos(a), Math.sqrt(1 - b * b) * Math.sin(a), b];
        const on = [0, 1, 2].map((k) =>
          unit.reduce((sum, v, j) => sum + NINETY_FIVE * v * axes[j]! * directions[j]![k]!, 0),
        ) as unknown as Vec;
        const [x, y] = [dot(on, picture.right), dot(on, picture.up)];
        const [u, v] = [x * Math.cos(turn) + y * Math.sin(turn), y * Math.cos(turn) - x * Math.sin(turn)];
        most = Math.max(most, Math.hypot(u / major, v / minor));
      }
      expect(most).toBeLessThan(1 + 1e-9);
      expect(most).toBeGreaterThan(0.9995);
      expect(major).toBeGreaterThanOrEqual(minor);
    }
  });

  it("a place unsure in one way alone is a line that way", () => {
    const { major, minor, turn } = ellipseOf(
      [
        [0, 0, 0],
        [0, 0, 0],
        [0, 0, 4],
      ],
      axesOf(directionOf("left")),
      1,
    );
    expect([major, minor, Math.abs(turn)]).toEqual([2, 0, rad(90)]);
  });
});

describe("names that would lie on each other", () => {
  const name = (id: string, x: number, y: number, depth = 0, rank = 1): Wanted => ({
    id,
    width: 80,
    height: 20,
    spots: around(x, y, 80, 20, 10),
    rank,
    depth,
  });
  const clash = (a: Box, b: Box): boolean =>
    a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

  it("the nearer to the eye has the best place, the other the next; in hand comes before near", () => {
    const near = thinned([name("far", 300, 300, 90), name("near", 300, 300, 10)], size);
    expect(near.get("near")).toMatchObject({ x: 310, y: 290 });
    expect(near.get("far")).toMatchObject({ x: 210, y: 290 });
    const hand = thinned([name("far", 300, 300, 90, 0), name("near", 300, 300, 10)], size);
    expect(hand.get("far")).toMatchObject({ x: 310 });
  });

  it("one without room is left out; none leaves the picture or lies on what is taken", () => {
    const many = Array.from({ length: 9 }, (_, i) => name(`n${i}`, 300, 300, i));
    expect([...thinned(many, size).keys()]).toEqual(["n0", "n1"]);
    expect(thinned([name("edge", 899, 300)], size).get("edge")).toMatchObject({ x: 809 });
    expect(thinned([name("out", 1200, 300)], size).size).toBe(0);
    const taken = [{ x: 320, y: 280, width: 20, height: 40 }];
    expect(thinned([name("a", 300, 300)], size, taken).get("a")).toMatchObject({ x: 210 });
  });

  it("of many by chance no two lie on each other, and each that is left out had no room (seed 12)", () => {
    const random = seeded(12);
    const all = Array.from({ length: 150 }, (_, i) =>
      name(`n${i}`, 900 * random(), 700 * random(), random(), Math.floor(3 * random())),
    );
    const shown = thinned(all, size);
    const boxes = [...shown.values()];
    boxes.forEach((a, i) => {
      for (const b of boxes.slice(i + 1)) expect(clash(a, b)).toBe(false);
    });
    for (const left of all.filter(({ id }) => !shown.has(id))) {
      for (const [x, y] of left.spots) {
        const box = { x: x - 3, y: y - 3, width: 86, height: 26 };
        const isOut = x < 0 || y < 0 || x + 80 > size[0] || y + 20 > size[1];
        expect(isOut || boxes.some((b) => clash(box, b))).toBe(true);
      }
    }
    expect(shown.size).toBeGreaterThan(50);
    expect(shown.size).toBeLessThan(150);
  });
});
