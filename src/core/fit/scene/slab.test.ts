import { describe, expect, test } from "vitest";
import { seeded } from "../../numeric/index.ts";
import {
  add,
  anyPerpendicular,
  cross,
  dist,
  lerp,
  type Outline,
  scale,
  unit,
  type Vec,
} from "../../space/index.ts";
import { awayFromSlab, type Slab, segmentFromSlab } from "./index.ts";
import { farFromSlab, slabOf, slabSegments } from "./slab.ts";

const SEED = 11;

/** A plate of random size and lie: rectangle or disc. */
function some(random: () => number, isRound: boolean): Slab {
  const normal = unit([random() - 0.5, random() - 0.5, random() - 0.5]);
  const x = anyPerpendicular(normal);
  const outline: Outline = isRound
    ? { kind: "disc", radius: 20 + 60 * random() }
    : { kind: "rectangle", x, y: cross(normal, x), half: [20 + 60 * random(), 10 + 40 * random()] };
  return slabOf([random() * 50, random() * 50, random() * 50], normal, outline, 2 + 10 * random());
}

/** Places all over the skin of a plate, by plain sampling. */
function skin(s: Slab, n: number): readonly Vec[] {
  const out: Vec[] = [];
  const put = (a: number, b: number, h: number): void => {
    out.push(add(s.at, add(scale(s.x, a), add(scale(s.y, b), scale(s.normal, h)))));
  };
  for (let i = 0; i <= n; i++)
    for (let j = 0; j <= n; j++) {
      const [u, v] = [(2 * i) / n - 1, (2 * j) / n - 1];
      if (s.half) {
        for (const h of [0, -s.thickness]) put(u * s.half[0], v * s.half[1], h);
        for (const side of [1, -1]) {
          put(side * s.half[0], u * s.half[1], (-s.thickness * j) / n);
          put(u * s.half[0], side * s.half[1], (-s.thickness * j) / n);
        }
      } else {
        const a = (2 * Math.PI * i) / n;
        for (const h of [0, -s.thickness])
          put((s.radius * j * Math.cos(a)) / n, (s.radius * j * Math.sin(a)) / n, h);
        put(s.radius * Math.cos(a), s.radius * Math.sin(a), (-s.thickness * j) / n);
      }
    }
  return out;
}

describe(`a plate as a solid (seed ${SEED})`, () => {
  for (const isRound of [false, true]) {
    const what = isRound ? "disc" : "rectangle";
    test(`the distance of a place is that to the nearest place of the skin of a ${what}, negative inside`, () => {
      const random = seeded(SEED);
      for (let n = 0; n < 8; n++) {
        const s = some(random, isRound);
        const all = skin(s, 80);
        for (let k = 0; k < 12; k++) {
          const near = all[Math.floor(random() * all.length)]!;
          const p = add(near, [(random() - 0.5) * 40, (random() - 0.5) * 40, (random() - 0.5) * 40]);
          const least = all.reduce((d, q) => Math.min(d, dist(p, q)), Infinity);
          const far = farFromSlab(s, ...p);
          expect(Math.abs(far)).toBeLessThanOrEqual(least + 1e-9);
          expect(Math.abs(far)).toBeGreaterThan(least - 1.8);
          // One step away from it is as much farther.
          const on = add(p, scale(awayFromSlab(s, p), 1e-4));
          expect(farFromSlab(s, ...on) - far).toBeCloseTo(1e-4, 7);
        }
      }
    });

    test(`the nearest place of a segment to a ${what} is found as by walking along it`, () => {
      const random = seeded(SEED + 1);
      for (let n = 0; n < 200; n++) {
        const s = some(random, isRound);
        const place = (): Vec => add(s.at, [0, 1, 2].map(() => (random() - 0.5) * 300) as unknown as Vec);
        const [a, b] = [place(), place()];
        let least = Infinity;
        for (let i = 0; i <= 3000; i++) least = Math.min(least, farFromSlab(s, ...lerp(a, b, i / 3000)));
        const segments = Float64Array.from([...a, ...b]);
        const got = segmentFromSlab(s, segments, 0, Infinity)!;
        expect(got.far).toBeLessThanOrEqual(least + 1e-4);
        expect(got.far).toBeGreaterThan(least - dist(a, b) / 6000 - 1e-9);
        expect(farFromSlab(s, ...lerp(a, b, got.t))).toBeCloseTo(got.far, 9);
        expect(slabSegments(s, segments, 10, 1e3)).toBeCloseTo(got.far - 10, 9);
        expect(segmentFromSlab(s, segments, 0, got.far - 0.01)).toBeUndefined();
      }
    });
  }

  test("a tube that stands on its face touches it, whatever its bore; beside it, it is as far as its side", () => {
    const s = slabOf(
      [0, 0, 0],
      [0, 0, 1],
      { kind: "rectangle", x: [1, 0, 0], y: [0, 1, 0], half: [60, 40] },
      3,
    );
    expect(slabSegments(s, Float64Array.from([0, 0, 20, 0, 0, 500]), 20, 1e3)).toBe(0);
    expect(slabSegments(s, Float64Array.from([85, 0, -200, 85, 0, 500]), 20, 1e3)).toBeCloseTo(5, 9);
    expect(slabSegments(s, Float64Array.from([0, 70, -1, 1, 70, -1]), 20, 1e3)).toBeCloseTo(10, 9);
    // Under it by its thickness and no more.
    expect(slabSegments(s, Float64Array.from([0, 0, -30, 50, 0, -30]), 20, 1e3)).toBeCloseTo(7, 9);
  });
});
