import { describe, expect, it } from "vitest";
import { beyondOutline, outlineOf } from "./outline.ts";
import type { Vec } from "./vec.ts";

const UP: Vec = [0, 0, 1];
const at: Vec = [10, 20, 30];
const from = (x: number, y: number, z = 7): Vec => [at[0] + x, at[1] + y, at[2] + z];

describe("a plate's outline", () => {
  it("with size and along is that rectangle, the first size along `along`", () => {
    const outline = outlineOf({ normal: UP, size: [160, 100], along: [0, 1, 0] }, 60);
    const beyond = (x: number, y: number): number => beyondOutline(outline, at, UP, from(x, y));
    expect(beyond(0, 80)).toBeCloseTo(0, 12);
    expect(beyond(50, 0)).toBeCloseTo(0, 12);
    expect(beyond(0, 0)).toBe(-50);
    expect(beyond(53, 84)).toBeCloseTo(5, 12);
  });

  it("with size alone is a disc of its half diagonal, with neither one of the radius asked for", () => {
    const disc = outlineOf({ normal: UP, size: [60, 80] }, 33);
    expect(disc).toEqual({ kind: "disc", radius: 50 });
    expect(beyondOutline(disc, at, UP, from(30, -40))).toBeCloseTo(0, 12);
    expect(outlineOf({ normal: UP }, 33)).toEqual({ kind: "disc", radius: 33 });
  });
});
