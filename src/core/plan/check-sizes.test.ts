import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { barThrough, cornersOf, type Listed, NO_BACK } from "../../../tests/support/bend.ts";
import { checksAfter } from "../bend/index.ts";
import { readJob } from "../job/index.ts";
import { deg, normal, rad, seeded } from "../numeric/index.ts";
import { measure } from "../trestles/bent-readings.ts";
import { blankOf, checkSizes, judgeCheck, planJob } from "./index.ts";

const document = JSON.parse(readFileSync("demo/sandling.json", "utf8"));
const fed = (end: "A" | "B") => {
  const bars = Object.entries(document.bars as Record<string, object>).map(([id, bar]) => [
    id,
    "mirrorOf" in bar ? bar : { ...bar, fromEnd: end },
  ]);
  const read = readJob({ ...document, bars: Object.fromEntries(bars) });
  return planJob(read.ok ? read.job : expect.fail());
};

describe.each(["A", "B"] as const)("sizes to read after a bend, fed from %s", (end) => {
  const plan = fed(end);
  const sizes = plan.bars.flatMap((planned) =>
    planned.bend.bends.flatMap(({ n }) =>
      checkSizes(planned, plan.job, n).map((size) => ({ planned, n, size })),
    ),
  );

  it("are the angle and the check sizes of the card, none left out", () => {
    for (const planned of plan.bars)
      for (const { bend, checks } of checksAfter(planned.bar, planned.leastBack))
        expect(checkSizes(planned, plan.job, bend).map(({ what, value }) => [what, value])).toEqual([
          ["angle", planned.bend.bends.find((b) => b.n === bend)!.angle],
          ...checks.map(({ what, value }) => [what, value]),
        ]);
    expect(checkSizes(plan.bars[0]!, plan.job, 99)).toEqual([]);
  });

  it("are kept as readings of the finished bar that measure the same there, or say why not", () => {
    const kept = new Set<string>();
    for (const { planned, size } of sizes) {
      expect(size.reading === undefined).toBe(size.not !== undefined);
      if (!size.reading) continue;
      const { shape, od } = blankOf(planned);
      expect(measure(size.reading, shape, od, shape)).toBeCloseTo(size.value, 3);
      kept.add(size.what);
    }
    expect([...kept].sort()).toEqual(["angle", "end-to-end", "leg-A", "leg-B", "off-table"]);
  });

  it("have a ± but where the eye judges or the other side is meant, more than tape or finder alone", () => {
    const { tape, slope, angle } = plan.job.shop.errors;
    for (const { size } of sizes) {
      expect(size.sd === undefined).toBe(size.not === "by-eye" || size.not === "other-side");
      if (size.what === "angle") expect(deg(size.sd!)).toBeCloseTo(Math.hypot(slope, angle), 9);
      else if (size.sd !== undefined) expect(size.sd).toBeGreaterThan(tape);
    }
  });
});

describe("parallel legs", () => {
  const shop = fed("A").job;
  const list: readonly Listed[] = [
    [250, 0, 90],
    [300, 0, 90],
    [250, 90, 30],
  ];
  const legs = (fromEnd: "A" | "B", bend: number) => {
    const bar = barThrough(cornersOf(list, 200, 110), { od: 40, clr: 110, fromEnd });
    const found = checkSizes({ bar, leastBack: NO_BACK }, shop, bend);
    return { bar, found: found.filter((s) => s.what === "parallel-legs") };
  };

  it("are kept where the trestles read them at the same bend, before the last bend too", () => {
    const { bar, found } = legs("A", 2);
    expect(found).toMatchObject([{ reading: { what: "across", legs: [1, 3] } }]);
    const { shape, od } = blankOf({ bar, leastBack: NO_BACK });
    // centre to centre 300 + 2·110, and the tube's two halves
    expect(found[0]!.value).toBeCloseTo(300 + 2 * 110 + 40, 6);
    expect(measure(found[0]!.reading!, shape, od, shape)).toBeCloseTo(found[0]!.value, 6);
  });

  it("fed from B are read at another bend at the trestles, which is named; their ± is that of the twin from A", () => {
    const [size] = legs("B", 1).found;
    expect(size).toMatchObject({ value: expect.closeTo(560, 6), not: { at: 2 } });
    expect(size!.reading).toBeUndefined();
    expect(size!.sd).toBeCloseTo(legs("A", 2).found[0]!.sd!, 6);
  });
});

/** Slow twin: bars made one after the other, each as far off as the shop's errors say, and each read by `checksAfter`. */
it("have the ± by which bars scatter that a shop with these errors makes", () => {
  const [clr, last] = [110, 300];
  const list: readonly Listed[] = [
    [250, 0, 40],
    [180, 70, 35],
    [220, -50, 60],
  ];
  const job = { shop: { errors: { mark: 1, angle: 0.5, turn: 1, tape: 1, slope: 0.2 } } } as Parameters<
    typeof checkSizes
  >[1];
  const random = seeded(7);
  const draw = (sd: number): number => sd * normal(random);
  const planned = barThrough(cornersOf(list, last, clr), { od: 40, clr });
  const made = Array.from({ length: 1500 }, () => {
    const marks = list.map(() => draw(1));
    const off = list.map(() => draw(0.5));
    // a bend begins at its mark, and takes R·θ of the tube behind it
    const eaten = (i: number): number => (marks[i - 1] ?? 0) + clr * rad(off[i - 1] ?? 0);
    const bent = list.map(
      ([s, r, a], i): Listed => [s + marks[i]! - eaten(i), r + (i > 0 ? draw(1) : 0), a + off[i]!],
    );
    const bar = barThrough(cornersOf(bent, last + draw(1) - eaten(list.length), clr), { od: 40, clr });
    return checksAfter(bar, NO_BACK);
  });
  let looked = 0;
  list.forEach((_, i) => {
    for (const size of checkSizes({ bar: planned, leastBack: NO_BACK }, job, i + 1)) {
      if (size.what === "angle" || size.sd === undefined) continue;
      const read = made.map((checks) => checks[i]!.checks.find((c) => c.what === size.what)!.value + draw(1));
      const mean = read.reduce((a, b) => a + b, 0) / read.length;
      const sd = Math.sqrt(read.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (read.length - 1));
      // the spread of 1500 is itself known to 1.8 %
      expect(Math.abs(sd / size.sd - 1), `${size.what} after bend ${i + 1}`).toBeLessThan(0.07);
      looked++;
    }
  });
  expect(looked).toBeGreaterThan(7);
});

it("judges what was read by its ±, and knows a slip of unit", () => {
  const size = { what: "leg-A", value: 671.4, sd: 1.8 } as const;
  expect(judgeCheck(size, 669.6)).toEqual({ off: expect.closeTo(-1.8), times: expect.closeTo(1) });
  expect(judgeCheck(size, 67.1)).toMatchObject({ slip: { slip: "cm" } });
  expect(judgeCheck({ what: "round-outside", value: 104 }, 104)).toBeUndefined();
});
