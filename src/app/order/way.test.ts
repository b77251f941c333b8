import { describe, expect, it } from "vitest";
import type { Pose } from "../../core/fit/index.ts";
import { dist, type Vec } from "../../core/space/index.ts";
import { posedAt } from "../cage/staging.ts";
import type { BarResult } from "../model/compute/index.ts";
import { closestOn, moveFrom, poseAt, scrubOf, standFor, stopFrom } from "./way.ts";

/** A straight bar from the origin, 600 forward. */
const bar = (start: Vec, finish: Vec): BarResult =>
  ({ bar: { centreline: { start, finish, bends: [] } } }) as unknown as BarResult;
const own = bar([0, 0, 0], [600, 0, 0]);
const H = Math.SQRT1_2;
const SEAT: Pose = { at: [0, 0, 0], turn: [0, 0, 0, 1] };
// 500 in from the left; then a quarter turn about A, seen from above; then 100 down
const way: readonly Pose[] = [
  { at: [0, 500, 100], turn: [0, 0, H, H] },
  { at: [0, 0, 100], turn: [0, 0, H, H] },
  { at: [0, 0, 100], turn: [0, 0, 0, 1] },
  SEAT,
];

describe("going along a way", () => {
  const scrub = scrubOf(way, own);
  it("is as long as its fastest point travels from pose to pose", () => {
    expect(scrub.upTo[1]).toBeCloseTo(500, 9);
    expect(scrub.upTo[2]! - scrub.upTo[1]!).toBeCloseTo(600 * Math.SQRT2, 9);
    expect(scrub.total).toBeCloseTo(600 + 600 * Math.SQRT2, 9);
  });

  it("begins outside, ends at the seat, shifts straight and turns at an even rate between", () => {
    expect(poseAt(scrub, 0).at).toEqual([0, 500, 100]);
    expect(poseAt(scrub, 0).turn[2]).toBeCloseTo(H, 12);
    expect(poseAt(scrub, scrub.total).at).toEqual([0, 0, 0]);
    expect(poseAt(scrub, scrub.total + 5).turn[3]).toBeCloseTo(1, 12);
    expect(poseAt(scrub, 250).at[1]).toBeCloseTo(250, 9);
    // half way through the turn the far end stands 45° to the left
    const p = poseAt(scrub, 500 + 300 * Math.SQRT2);
    const end = posedAt({ id: "", at: p.at, turn: p.turn, about: [0, 0, 0] }, [600, 0, 0]);
    expect(end[0]).toBeCloseTo(600 * H, 6);
    expect(end[1]).toBeCloseTo(600 * H, 6);
    expect(end[2]).toBeCloseTo(100, 9);
  });

  it("goes by even steps, there and back, none of them too long, and stays at its ends", () => {
    expect(scrub.stops[0]).toBe(0);
    expect(scrub.stops[scrub.stops.length - 1]).toBeCloseTo(scrub.total, 9);
    let at = 0;
    let steps = 0;
    while (at < scrub.total) {
      const next = stopFrom(scrub, at, 1);
      expect(next - at).toBeLessThanOrEqual(60 + 1e-9);
      expect(stopFrom(scrub, next, -1)).toBeCloseTo(at, 9);
      at = next;
      if (++steps > 100) throw new Error("it does not arrive");
    }
    expect(stopFrom(scrub, scrub.total, 1)).toBe(scrub.total);
    expect(stopFrom(scrub, 0, -1)).toBe(0);
  });

  it("says which way and how far it turns", () => {
    expect(moveFrom(scrub, 0)).toMatchObject({ go: "to the right" });
    expect(moveFrom(scrub, 0).turn).toBeCloseTo(0, 4);
    expect(moveFrom(scrub, 700).turn).toBeGreaterThan(3);
    expect(moveFrom(scrub, scrub.total - 40)).toMatchObject({ go: "down" });
  });

  it("of one move has an end and a beginning", () => {
    const one = scrubOf([{ at: [0, 0, -30], turn: SEAT.turn }, SEAT], own);
    expect(one.total).toBeCloseTo(30, 9);
    expect(one.stops).toEqual([0, one.total]);
    expect(moveFrom(one, 0)).toEqual({ go: "up", turn: 0 });
  });

  it("finds where another bar is nearest", () => {
    // beside the way, passed 200 mm before the seat
    const other = bar([0, 200, 160], [600, 200, 160]);
    const straight = scrubOf([{ at: [0, 500, 0], turn: SEAT.turn }, SEAT], own);
    const at = closestOn(straight, own, other)!;
    expect(Math.abs(at - 300)).toBeLessThan(12);
    expect(dist(poseAt(straight, at).at, [0, 200, 0])).toBeLessThan(12);
    expect(closestOn(straight, own, undefined)).toBeUndefined();
  });
});

describe("where the fitter stands", () => {
  const from = (at: Vec) => standFor({ way: [{ at, turn: SEAT.turn }, SEAT] }, undefined, [0, 0, 0]);
  it("is the side that the bar comes from, a little toward the front", () => {
    expect(from([0, 900, 0]).az).toBeCloseTo(55, 9);
    expect(from([0, -900, 0]).az).toBeCloseTo(-55, 9);
    expect(from([-900, 0, 0]).az).toBeCloseTo(145, 9);
    expect(from([0, 0, 900]).az).toBeCloseTo(55, 9);
  });
  it("is before the opening, where it comes through one", () => {
    const door: Vec[] = [
      [0, -700, 300],
      [600, -700, 300],
      [600, -700, 900],
      [0, -700, 900],
    ];
    const { az } = standFor({ way: [{ at: [0, 900, 0], turn: SEAT.turn }, SEAT] }, door, [300, 0, 600]);
    expect(az).toBeCloseTo(-55, 9);
  });
});
