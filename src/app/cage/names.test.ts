import { describe, expect, it } from "vitest";
import { chiSquareLimit } from "../../core/estimate/index.ts";
import { rad, seeded } from "../../core/numeric/index.ts";
import { cross, dot, type Vec } from "../../core/space/index.ts";
import { ellipsoidOf } from "../../core/survey/ellipsoid.ts";
import { alongPath, anchorsOf, lyingOf } from "./anchors.ts";
import { axesOf, type Camera, directionOf } from "./camera.ts";
import { Cover, type Lying } from "./cover.ts";
import { ellipseOf, NINETY_FIVE } from "./ellipse.ts";
import { pickPoint, sightAt } from "./pick.ts";
import { seenAt } from "./project.ts";
import { type Box, crosses, endOf, thinned, type Wanted } from "./thin.ts";

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
  const clear = new Cover(size);
  const name = (id: string, x: number, y: number, depth = 0, rank = 1): Wanted => ({
    id,
    width: 80,
    height: 20,
    anchors: [{ x, y, share: 0, reach: 0 }],
    off: [10],
    rank,
    depth,
    own: [],
    worst: 300,
  });
  const clash = (a: Box, b: Box): boolean =>
    a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
  const boxOf = (shown: ReturnType<typeof thinned>, id: string): Box | undefined => shown.get(id)?.box;

  it("the nearer to the eye has the best place, the other another; in hand comes before near", () => {
    const near = thinned([name("far", 300, 300, 90), name("near", 300, 300, 10)], size, [], clear);
    expect(boxOf(near, "near")).toMatchObject({ x: 310, y: 290 });
    expect(boxOf(near, "far")).toMatchObject({ x: 210, y: 290 });
    const hand = thinned([name("far", 300, 300, 90, 0), name("near", 300, 300, 10)], size, [], clear);
    expect(boxOf(hand, "far")).toMatchObject({ x: 310 });
  });

  it("one without room is left out; none leaves the picture or lies on what is taken", () => {
    const many = Array.from({ length: 40 }, (_, i) => name(`n${i}`, 300, 300, i));
    const shown = thinned(many, size, [], clear);
    expect(shown.size).toBeGreaterThan(1);
    expect(shown.size).toBeLessThan(9);
    expect(boxOf(thinned([name("edge", 896, 300)], size, [], clear), "edge")).toMatchObject({ x: 806 });
    expect(thinned([name("out", 1200, 300)], size, [], clear).size).toBe(0);
    const taken = [{ x: 320, y: 280, width: 20, height: 40 }];
    expect(boxOf(thinned([name("a", 300, 300)], size, taken, clear), "a")).toMatchObject({ x: 210 });
  });

  it("of many by chance no two lie on each other or on a leader, and each left out had no room (seed 12)", () => {
    const random = seeded(12);
    const all = Array.from({ length: 150 }, (_, i) => ({
      ...name(`n${i}`, 900 * random(), 700 * random(), random(), Math.floor(3 * random())),
      off: [10, 30],
    }));
    const shown = thinned(all, size, [], clear);
    const placed = [...shown.values()];
    placed.forEach((a, i) => {
      for (const b of placed.slice(i + 1)) {
        expect(clash(a.box, b.box)).toBe(false);
        expect(crosses(a.anchor, endOf(a.anchor, a.box), b.box)).toBe(false);
        expect(crosses(b.anchor, endOf(b.anchor, b.box), a.box)).toBe(false);
      }
    });
    for (const { id, anchors } of all.filter(({ id }) => !shown.has(id))) {
      const [{ x, y } = { x: 0, y: 0 }] = anchors;
      const box = { x: x + 10 - 3, y: y - 10 - 3, width: 86, height: 26 };
      const isOut = x + 93 > size[0] || y < 13 || y + 13 > size[1];
      const isTaken = placed.some((p) => clash(box, p.box) || crosses(p.anchor, endOf(p.anchor, p.box), box));
      const isCut = placed.some((p) => crosses({ x, y }, { x: x + 10, y }, p.box));
      expect(isOut || isTaken || isCut, id).toBe(true);
    }
    expect(shown.size).toBeGreaterThan(60);
    expect(shown.size).toBeLessThan(150);
  });

  it("a name lies beside what it names, and rather on the ground than on another bar", () => {
    const cover = new Cover(size);
    const along = (y: number, depth: number) => [0, 900].map((x): Lying => ({ x, y, depth, reach: 20 }));
    cover.add(1, along(300, 10));
    // another bar right below: the ground above is better
    cover.add(2, along(345, 20));
    const bar = {
      ...name("bar", 450, 300),
      own: along(300, 10),
      anchors: [{ x: 450, y: 300, share: 0.5, reach: 20 }],
    };
    const shown = thinned([{ ...bar, off: [14, 26, 44] }], size, [], cover);
    const box = boxOf(shown, "bar")!;
    expect(box.y + box.height).toBeLessThanOrEqual(300 - 20);
    expect(cover.under(box)).toBe(0);
    // where it can lie nowhere but on itself it is left out, unless it must be there
    const wide = new Cover(size);
    wide.add(
      1,
      along(350, 10).map((l) => ({ ...l, reach: 900 })),
    );
    expect(thinned([bar], size, [], wide).size).toBe(0);
    expect(thinned([{ ...bar, worst: Infinity }], size, [], wide).size).toBe(1);
  });

  it("a name stays where it was while that is not much worse, and goes where it is", () => {
    const before = { share: 0, dx: -90, dy: -10 };
    const kept = thinned([{ ...name("a", 300, 300), before }], size, [], clear);
    expect(kept.get("a")).toMatchObject(before);
    const taken = [{ x: 220, y: 295, width: 10, height: 10 }];
    const gone = thinned([{ ...name("a", 300, 300), before }], size, taken, clear);
    expect(gone.get("a")).toMatchObject({ dx: 10, dy: -10 });
  });

  it("what is in front of what: the nearer of two bars that cross, and nothing beside them", () => {
    const cover = new Cover(size);
    cover.add(
      1,
      [0, 900].map((x): Lying => ({ x, y: 300, depth: 50, reach: 12 })),
    );
    cover.add(
      2,
      [-5000, 7000].map((y): Lying => ({ x: 450, y, depth: 20, reach: 12 })),
    );
    expect([cover.at(450, 300), cover.at(100, 300), cover.at(450, 600), cover.at(100, 100)]).toEqual([
      2, 1, 2, 0,
    ]);
    expect(cover.at(-5, 300)).toBe(0);
  });
});

describe("where a name points at", () => {
  const path: Vec[] = [
    [0, 0, 0],
    [100, 0, 0],
    [100, 300, 0],
  ];
  it("is a share of the way along, by length", () => {
    expect(alongPath(path, 0.125)).toEqual([50, 0, 0]);
    expect(alongPath(path, 0.625)).toEqual([100, 150, 0]);
    expect(alongPath([[7, 8, 9]], 0.4)).toEqual([7, 8, 9]);
  });

  it("is in the picture and in front: the hidden part of a bar has no anchor, the middle comes first", () => {
    const flat: Camera = { ...directionOf("left"), target: [0, 0, 0], height: 700, perspective: 0 };
    const seen = (p: Vec) => seenAt(flat, p, size);
    const of = {
      kind: "bar",
      id: "a",
      says: "a",
      path: [
        [-400, 0, 0],
        [400, 0, 0],
      ],
      radius: 20,
      isInHand: false,
    } as const;
    const lying = lyingOf(of, seen);
    const cover = new Cover(size);
    cover.add(
      1,
      lying.flatMap((l) => l ?? []),
    );
    const whole = anchorsOf(of, lying, size, cover, 1, undefined);
    expect(whole[0]!.x).toBeCloseTo(450, 0);
    // a nearer bar over the right half
    cover.add(
      2,
      [450, 900].map((x): Lying => ({ x, y: 350, depth: -500, reach: 40 })),
    );
    const half = anchorsOf(of, lying, size, cover, 1, undefined);
    expect(half.length).toBeGreaterThan(2);
    for (const { x } of half) expect(x).toBeLessThan(450);
  });
});
