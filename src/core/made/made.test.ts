import { expect, it } from "vitest";
import type { NotchedTo } from "../job/made-types.ts";
import { dist } from "../space/index.ts";
import { madeBar, shapeMade } from "./index.ts";

it("a straight bar whose plan turned between its notches keeps each end's zero line square to it", () => {
  const flat = (end: Pick<NotchedTo, "landing" | "out" | "zero">): NotchedTo => ({
    by: "saw",
    over: 0,
    finished: 900,
    ...end,
  });
  const notched = {
    A: flat({ landing: [0, 0, 0], out: [-1, 0, 0], zero: [0, 0, 1] }),
    // turned from x to y about z: its zero line was along where the bar lay before
    B: flat({ landing: [0, 900, 0], out: [0, 1, 0], zero: [-1, 0, 0] }),
  };
  const sawn = { tube: { od: 40, wall: 2 }, length: 900 };
  const made = madeBar("tie", "notched", { sawn, notched }, shapeMade(900, undefined, undefined));
  expect(made?.frames.A.zero).toEqual([0, 0, 1]);
  const { zero, out } = made!.frames.B;
  expect(dist(out, [1, 0, 0])).toBeLessThan(1e-12);
  expect(dist(zero, [0, 1, 0])).toBeLessThan(1e-12);
});
