import { describe, expect, it } from "vitest";
import { seeded } from "../../core/numeric/index.ts";
import { cross, dist, dot, type Vec } from "../../core/space/index.ts";
import { seenFrom } from "../../words/index.ts";
import {
  axesOf,
  type Camera,
  directionOf,
  distanceOf,
  fitted,
  mixed,
  refocused,
  STRAIGHT_VIEWS,
  straightOf,
} from "./camera.ts";
import { seenAt } from "./project.ts";

const camera = (part: Partial<Camera>): Camera => ({
  az: 0,
  el: 0,
  target: [0, 0, 0],
  height: 1000,
  perspective: 0,
  ...part,
});

describe("where the camera is", () => {
  it("straight views show the car as a drawing does: right-handed, front to the left seen from the left", () => {
    for (const view of STRAIGHT_VIEWS) {
      const { toward, right, up } = axesOf(directionOf(view));
      const third = cross(right, up);
      expect(dist(third, toward)).toBeLessThan(1e-12);
    }
    const rounded = (view: (typeof STRAIGHT_VIEWS)[number]) => {
      const { toward, right, up } = axesOf(directionOf(view));
      return [toward, right, up].map((v) => v.map((c) => Math.round(c) + 0));
    };
    expect(rounded("left")).toEqual([
      [0, 1, 0],
      [-1, 0, 0],
      [0, 0, 1],
    ]);
    expect(rounded("right")).toEqual([
      [0, -1, 0],
      [1, 0, 0],
      [0, 0, 1],
    ]);
    expect(rounded("front")).toEqual([
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ]);
    expect(rounded("rear")).toEqual([
      [-1, 0, 0],
      [0, -1, 0],
      [0, 0, 1],
    ]);
    expect(rounded("top")).toEqual([
      [0, 0, 1],
      [-1, 0, 0],
      [0, -1, 0],
    ]);
    expect(rounded("bottom")).toEqual([
      [0, 0, -1],
      [-1, 0, 0],
      [0, 1, 0],
    ]);
  });

  it("says where it is seen from", () => {
    const said = STRAIGHT_VIEWS.map((v) => seenFrom(directionOf(v).az, directionOf(v).el));
    expect(said).toEqual([
      "seen from the left",
      "seen from the right",
      "seen from the front",
      "seen from the rear",
      "seen from above",
      "seen from below",
    ]);
    expect(seenFrom(38, 22)).toBe("seen from the front left and above");
    expect(seenFrom(-140, -20)).toBe("seen from the rear right and below");
    expect(seenFrom(-179.9, 0)).toBe("seen from the rear");
  });

  it("knows a straight view whichever way round its angle is told", () => {
    expect(straightOf({ az: 180, el: 0 })).toBe("rear");
    expect(straightOf({ az: -180, el: 0 })).toBe("rear");
    expect(straightOf({ az: 91, el: 0 })).toBeUndefined();
  });

  it("fits: every ball is inside the picture, and it is no larger than needed", () => {
    const blobs = [
      { at: [0, 0, 0], radius: 20 },
      { at: [1500, 300, 100], radius: 20 },
      { at: [-900, -600, 1100], radius: 22.5 },
    ] as const;
    for (const perspective of [0, 1]) {
      for (const aspect of [0.46, 1, 1.6]) {
        for (const view of [...STRAIGHT_VIEWS, "three-quarter"] as const) {
          const fit = fitted(camera({ ...directionOf(view), perspective }), blobs, aspect);
          const { toward, right, up } = axesOf(fit);
          const distance = distanceOf(fit);
          let fullest = 0;
          for (const { at, radius } of blobs) {
            const p = at.map((v, i) => v - fit.target[i]!) as unknown as readonly [number, number, number];
            const shrink = distance === Infinity ? 1 : distance / (distance - dot(p, toward));
            const y = ((Math.abs(dot(p, up)) + radius) * shrink) / (fit.height / 2);
            const x = ((Math.abs(dot(p, right)) + radius) * shrink) / ((fit.height / 2) * aspect);
            fullest = Math.max(fullest, x, y);
          }
          expect(fullest).toBeLessThanOrEqual(1);
          expect(fullest).toBeGreaterThan(0.8);
        }
      }
    }
  });

  it("moves the shorter way round, and starts and ends where it should", () => {
    const a = camera({ az: 170, height: 1000 });
    const b = camera({ az: -170, height: 4000 });
    expect(Math.abs(mixed(a, b, 0.5).az)).toBeCloseTo(180, 9);
    expect(mixed(a, b, 0.5).height).toBeCloseTo(2000, 9);
    expect(mixed(a, b, 0)).toEqual(a);
    expect(mixed(a, b, 1)).toEqual(b);
  });

  it("aimed at another depth it shows the same picture, and comes up to the place as it comes closer (seed 9)", () => {
    const random = seeded(9);
    const size = [900, 700] as const;
    const place = (): Vec => [2000 * random() - 1000, 2000 * random() - 1000, 1500 * random()];
    for (const perspective of [0, 0.5, 1]) {
      const from = camera({ az: 40, el: 20, target: [0, 0, 600], height: 2500, perspective });
      const to = place();
      const aimed = refocused(from, to);
      for (let i = 0; i < 20; i++) {
        const p = place();
        const [a, b] = [seenAt(from, p, size)!, seenAt(aimed, p, size)!];
        expect(b.x).toBeCloseTo(a.x, 6);
        expect(b.y).toBeCloseTo(a.y, 6);
      }
      expect(seenAt(aimed, to, size)!.depth).toBeCloseTo(0, 6);
      expect(seenAt({ ...aimed, height: 100 }, to, size)).toBeDefined();
    }
  });
});
