import { expect, test } from "vitest";
import { EFFORT, fittingFor, jobOf } from "../../../../tests/support/fit.ts";
import { packingOf, weldReach } from "../index.ts";

const tee = (more: object = {}, bars: Readonly<Record<string, readonly unknown[]>> = {}) =>
  fittingFor(
    jobOf(
      {
        host: [
          [0, 0, 20],
          [0, 0, 800],
        ],
        bar: [{ on: "host", z: 400 }, [0, 400, 400]],
        ...bars,
      },
      40,
      more,
    ),
    EFFORT,
  );

const reachAt = (fitting: ReturnType<typeof tee>, order: readonly string[], bar = "bar", end = "A") =>
  weldReach(fitting, order).find((r) => r.bar === bar && r.end === end)!;

test("a square joint in the open is reached all round", () => {
  expect(reachAt(tee(), ["host", "bar"])).toEqual({
    bar: "bar",
    end: "A",
    first: 1,
    last: 1,
    roofOff: 1,
    before: [],
  });
});

test("a wall close beside it hides about the half that faces it; off with the roof, nothing", () => {
  const wall = {
    edge: [
      [24, -500, 10],
      [24, 900, 10],
      [24, 900, 900],
      [24, -500, 900],
    ],
  };
  const reach = reachAt(tee({ body: { panels: { wall }, roof: ["wall"] } }), ["host", "bar"]);
  expect(reach.last).toBeGreaterThan(0.35);
  expect(reach.last).toBeLessThan(0.75);
  expect(reach.roofOff).toBe(1);
});

test("a roof low over a joint: whole again with the roof off, and with the cage let down in the body", () => {
  const roof = {
    edge: [
      [-500, -500, 428],
      [500, -500, 428],
      [500, 900, 428],
      [-500, 900, 428],
    ],
  };
  const reach = reachAt(
    fittingFor(
      jobOf(
        {
          host: [
            [0, 0, 20],
            [0, 0, 424],
          ],
          bar: [{ on: "host", z: 400 }, [0, 400, 400]],
        },
        40,
        { body: { panels: { roof }, roof: ["roof"] } },
      ),
    ),
    ["host", "bar"],
  );
  expect(reach.last).toBeLessThan(0.9);
  expect(reach.roofOff).toBe(1);
  expect(reach.lowered!.share).toBe(1);
  // A torch of 22 stands 15 off, leaning at most 35°: it needs some 20 more than there was, not the whole drop.
  expect(reach.lowered!.by).toBeGreaterThanOrEqual(25);
  expect(reach.lowered!.by).toBeLessThanOrEqual(150);
  expect(reachAt(tee(), ["host", "bar"]).lowered).toBeUndefined();
});

test("a bar that goes in later beside the joint closes part of it, and is named", () => {
  const fitting = tee(
    {},
    {
      late: [
        [32, 41, 20],
        [32, 41, 800],
      ],
    },
  );
  const reach = reachAt(fitting, ["host", "bar", "late"]);
  expect(reach.first).toBe(1);
  expect(reach.before.map((b) => b.bar)).toEqual(["late"]);
  expect(reach.first - reach.last).toBeCloseTo(reach.before[0]!.share, 9);
  // In before it, the same bar hides the same from the start.
  expect(reachAt(fitting, ["host", "late", "bar"]).first).toBeCloseTo(reach.last, 9);
});

test("packing: a 30 bar on a 45 and a 40 (7.5 and 5.0), the edge shimmed by 2.5 (common practice, no source)", () => {
  const fitting = fittingFor({
    format: "tubewright job",
    version: 2,
    tubes: { a: { od: 45, wall: 2 }, b: { od: 40, wall: 2 }, c: { od: 30, wall: 2 } },
    bars: {
      big: {
        tube: "a",
        path: [
          [0, 300, 0],
          [0, 300, 600],
        ],
      },
      less: {
        tube: "b",
        path: [
          [0, -300, 0],
          [0, -300, 600],
        ],
      },
      bar: {
        tube: "c",
        path: [
          { on: "big", z: 300 },
          { on: "less", z: 300 },
        ],
      },
    },
  });
  const packing = packingOf(fitting.bars[2]!)!;
  expect(packing.flat).toEqual({ A: 7.5, B: 5 });
  expect(packing).toMatchObject({ on: { A: "big", B: "less" }, shim: 2.5, shimUnder: "less" });
  expect(packing.shim * Math.SQRT2).toBeCloseTo(3.54, 2);
  expect(packing.angle.A).toBeCloseTo(10.607, 3);
  expect(packingOf(fitting.bars[0]!)).toBeUndefined();
});
