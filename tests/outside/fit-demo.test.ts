import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { judgeAt } from "../../src/core/fit/index.ts";
import { contactsOf, mobilityOf } from "../../src/core/fit/joint/index.ts";
import { capsulesBox } from "../../src/core/fit/scene/box.ts";
import { apart, solidBox, solidOf, standing } from "../../src/core/fit/scene/index.ts";
import { sweep } from "../../src/core/fit/way/index.ts";
import { sayDirection, sayWhy } from "../../src/words/index.ts";
import { barOf, EFFORT, fittingFor, judgeOrder } from "../support/fit.ts";

/** The demo car, in the job's own order: what a fabricator would say of it (common practice, no source). */
const demo = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as { bars: object };
const fitting = fittingFor(demo, { ...EFFORT, nodes: 3000 });
const order = Object.keys(demo.bars);

const mobility = (id: string) => {
  const own = barOf(fitting, id);
  return mobilityOf(own.bar, contactsOf(own.bar, own.copes, own.hosts));
};

describe("at the joint", () => {
  test("harness bar from below: the hoop's legs lean in, so it comes out down", () => {
    expect(mobility("harness-bar").slides.map(sayDirection)).toContain("down");
    for (const d of mobility("harness-bar").slides) expect(d[2]).toBeLessThan(-0.8);
  });

  test("header bar: held, by proof, with the lips that hold it named at both ends", () => {
    const { slides, locked, lips } = mobility("header-bar");
    expect(slides).toEqual([]);
    expect(locked).toBe(true);
    expect(new Set(lips.map((l) => l.end))).toEqual(new Set(["A", "B"]));
  });

  test("a bar and its twin slide alike, mirrored", () => {
    for (const id of ["rear-stay", "door-bar-rear-lower-half", "front-turret-bar"]) {
      const [left, right] = [mobility(`${id}-left`).slides[0]!, mobility(`${id}-right`).slides[0]!];
      expect(right[0]).toBeCloseTo(left[0], 6);
      expect(right[1]).toBeCloseTo(-left[1], 6);
      expect(right[2]).toBeCloseTo(left[2], 6);
    }
  });
});

describe("going in", () => {
  test.each([
    ["main-hoop", "free", "open"],
    ["harness-bar", "free", "slides"],
    ["rear-cross-through-bar", "free", "slides"],
    ["pillar-follower-left", "free", "slides"],
    ["pillar-follower-right", "free", "slides"],
    ["header-bar", "touches", "locked"],
    ["door-bar-through-left", "free", "tips"],
    ["door-bar-rear-lower-half-left", "spring", "slides"],
  ])("%s: %s, its joint %s; its way stands a sweep at 0.25 mm", (id, goesIn, joint) => {
    const judged = judgeAt(fitting, order, id);
    expect(judged).toMatchObject({ goesIn, joint });
    if (id.startsWith("pillar-follower")) expect(judged.way).toHaveLength(2);
    if (id === "header-bar") expect(judged.touches!.by).toBeLessThan(0.02);
    const own = barOf(fitting, id);
    const tacked = judged.after.map((t) => barOf(fitting, t).bar);
    const swept = sweep(own.bar, own.copes, judged.way, tacked, fitting.parts(false), { step: 0.25 });
    expect(swept.overlap).toBeLessThan((judged.touches?.by ?? judged.spring) + 0.01);
    expect(swept.clearance).toBeCloseTo(judged.clearance!, 9);
    // From its own length away from every tacked bar's box, to the seat.
    const far = solidBox(solidOf(own.bar, own.copes), judged.way[0]!);
    for (const t of tacked) {
      const { capsules } = standing(t) as { capsules: Parameters<typeof capsulesBox>[0] };
      expect(apart(far, capsulesBox(capsules))).toBeGreaterThan(own.bar.centreline.length);
    }
    expect(judged.way[judged.way.length - 1]).toEqual({ at: [0, 0, 0], turn: [0, 0, 0, 1] });
  });
});

test("a sill bar whose hoop foot is crowded goes in with a gap; its twin, whose is not, is looked at for itself", () => {
  // The hoop diagonal stands on the right foot alone, just where the right sill bar would roll out.
  const crowded = ["main-hoop", "pillar-bar-left", "pillar-bar-right", "hoop-diagonal-lower-half"];
  const [right, left] = judgeOrder(fitting, [...crowded, "sill-bar-right", "sill-bar-left"]).slice(-2);
  expect(left).toMatchObject({ bar: "sill-bar-left", goesIn: "free", spring: 0 });
  expect(right).toMatchObject({ bar: "sill-bar-right", goesIn: "spring", joint: "tips" });
  // With the ears of its notches, which stand out between two lines of the rim.
  expect(right!.gap).toBeLessThan(4);
  expect(sayWhy(right!.why, (mm) => `${mm.toFixed(1)} mm`)).toMatch(
    /^goes in with 3\.\d mm of gap at A and B; springing it takes about \d+ N at a host: more than two hands/,
  );
});

test("the same seed gives the same way", () => {
  const [a, b] = [1, 1].map((seed) =>
    judgeAt({ ...fitting, effort: { ...fitting.effort, seed } }, order, "dash-bar"),
  );
  expect(a).toEqual(b);
  expect(a!.goesIn).toBe("free");
});
