import { describe, expect, it } from "vitest";
import { rad } from "../numeric/index.ts";
import { asBent, type Blank } from "./bent.ts";
import type { BentReading } from "./bent-readings.ts";
import { madeErrors } from "./errors.ts";
import { lineOf } from "./shape.ts";
import { tellingReadings } from "./telling.ts";

const habits = { mark: 1, angle: rad(0.5), turn: rad(1) };
const sds = { tape: 1, finder: rad(0.2) };

/** Three bends out of one plane, as the demo's pillar bars. */
const blank: Blank = {
  shape: {
    straights: [700, 420, 380, 520],
    angles: [rad(38), rad(42), rad(31)],
    turns: [0, rad(-56), rad(-22)],
    radii: [120, 120, 120],
    numbers: [1, 2, 3],
  },
  od: 40,
  fromEnd: "A",
  arcFactor: 1,
};

describe("the few readings that tell", () => {
  const told = tellingReadings(blank, [], habits, sds);
  it("begin from what making scatters the free end by", () => {
    // the slow twin: the error budget by its own steps, straights free of each other
    const line = lineOf(blank.shape, { at: [0, 0, 0], dir: [1, 0, 0], inside: [0, 1, 0] });
    const budget = madeErrors(
      line,
      40,
      { mark: 0.01, angle: habits.angle, turn: habits.turn },
      {
        samples: 10,
        seed: 1,
        confidence: 0.5,
      },
    );
    const [first] = tellingReadings(blank, [], { ...habits, mark: 0.01 }, sds);
    const ratio = first!.before / Math.hypot(...budget.firstOrder);
    // a bend that is over also shortens the straight behind it, which the budget's steps leave alone
    expect(ratio).toBeGreaterThan(0.85);
    expect(ratio).toBeLessThan(1.15);
  });

  it("are few, differ, and each leaves less than the one before", () => {
    expect(told.length).toBeGreaterThan(1);
    expect(told.length).toBeLessThanOrEqual(4);
    for (const [i, t] of told.entries()) {
      expect(t.after).toBeLessThan(t.before);
      if (i > 0) expect(t.before).toBeCloseTo(told[i - 1]!.after, 9);
    }
    expect(new Set(told.map((t) => JSON.stringify({ ...t.reading, value: 0 }))).size).toBe(told.length);
  });

  it("read, on the bar as wanted, what makes it the bar wanted", () => {
    const bent = asBent(
      blank,
      told.map((t) => t.reading),
      habits,
      sds,
    )!;
    bent.shape.angles.forEach((a, i) => {
      expect(a).toBeCloseTo(blank.shape.angles[i]!, 6);
    });
  });

  it("none twice, and the best first of all that there are", () => {
    const [first] = told;
    const next = tellingReadings(blank, [first!.reading], habits, sds);
    expect(next[0]!.reading).toEqual(told[1]!.reading);
    const best = told[0]!.after;
    const others: BentReading[] = [
      { what: "leg", end: "A", value: 1 },
      { what: "leg", end: "B", value: 1 },
      { what: "angle", bend: 1, value: 1 },
      { what: "angle", bend: 3, value: 1 },
    ];
    for (const other of others) {
      const left = tellingReadings(blank, [other], habits, sds)[0]?.before ?? Infinity;
      expect(left).toBeGreaterThanOrEqual(best - 1e-9);
    }
  });

  it("a straight bar has none", () => {
    const straight = { ...blank, shape: { straights: [900], angles: [], turns: [], radii: [], numbers: [] } };
    expect(tellingReadings(straight, [], habits, sds)).toEqual([]);
  });

  it("fed from B, the other end is free, and the mirrored order tells alike", () => {
    const { straights, angles, turns, radii } = blank.shape;
    const turned: Blank = {
      ...blank,
      fromEnd: "B",
      shape: {
        straights: [...straights].reverse(),
        angles: [...angles].reverse(),
        turns: [0, ...turns.slice(1).reverse()],
        radii,
        numbers: blank.shape.numbers,
      },
    };
    const other = tellingReadings(turned, [], habits, sds);
    expect(other.map((t) => t.after)).toHaveLength(told.length);
    other.forEach((t, i) => {
      expect(t.after).toBeCloseTo(told[i]!.after, 6);
    });
  });
});
