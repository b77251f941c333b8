import { describe, expect, it } from "vitest";
import { type Camera, directionOf } from "./camera.ts";
import { type Pickable, pickBar, sightAt } from "./pick.ts";

/** Seen from the left (from +y), 1 mm a pixel: the picture's right is the car's rear. */
const left: Camera = { ...directionOf("left"), target: [0, 0, 0], height: 800, perspective: 0 };
const bar = (id: string, y: number, z: number, radius = 20): Pickable => ({
  id,
  origin: [0, 0, 10],
  spine: Float32Array.from([-300, y, z - 10, 0, 300, y, z - 10, 600]),
  radius,
});
const bars = [bar("near", 400, 0), bar("far", -400, 30), bar("high", 0, 200)];

describe("picking a bar", () => {
  it("takes the one in front where two lie behind each other, and says the station", () => {
    const picked = pickBar(sightAt(left, 100, 12, 800), bars, 34);
    expect(picked?.id).toBe("near");
    // 100 pixels to the right is x = −100, 200 mm from the end at −300.
    expect(picked?.along).toBeCloseTo(200, 6);
    expect(picked?.place[0]).toBeCloseTo(-100, 6);
  });

  it("takes the nearest within reach beside it, and nothing beyond", () => {
    expect(pickBar(sightAt(left, 0, 150, 800), bars, 34)?.id).toBe("high");
    expect(pickBar(sightAt(left, 0, 147, 800), bars, 34)?.id).toBe("high");
    expect(pickBar(sightAt(left, 0, 140, 800), bars, 34)).toBeUndefined();
    expect(pickBar(sightAt(left, 0, -60, 800), bars, 34)).toBeUndefined();
  });

  it("does not take what a section took away", () => {
    const picked = pickBar(sightAt(left, 100, 12, 800), bars, 34, (p) => p[1] <= 0);
    expect(picked?.id).toBe("far");
  });

  it("follows the perspective: what is farther needs a smaller step from the middle", () => {
    const free = { ...left, perspective: 1 };
    const distance = 400 / Math.tan((9 * Math.PI) / 180);
    // "high" stands at the target's depth, so its place in the picture is as without perspective.
    expect(pickBar(sightAt(free, 0, 200, 800), bars, 1)?.id).toBe("high");
    const behind = [bar("behind", -1000, 200, 5)];
    const seenAt = (200 * distance) / (distance + 1000);
    expect(pickBar(sightAt(free, 0, seenAt, 800), behind, 1)?.id).toBe("behind");
    expect(pickBar(sightAt(free, 0, 200, 800), behind, 1)).toBeUndefined();
  });
});
