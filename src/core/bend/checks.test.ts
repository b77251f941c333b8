import { describe, expect, test } from "vitest";
import { barThrough, cornersOf, type Listed, NO_BACK, WRITER } from "../../../tests/support/bend.ts";
import { type Ring, surface } from "../../../tests/support/surface.ts";
import { IDS, written } from "../../words/index.ts";
import { rad, seeded } from "../numeric/index.ts";
import { cross, dist, dot, len, neg, rejection, sub, unit, type Vec } from "../space/index.ts";
import { type CheckCode, type ChecksAfter, checksAfter } from "./checks.ts";

const value = (after: ChecksAfter, what: CheckCode): number | undefined =>
  after.checks.find((c) => c.what === what)?.value;

/**
 * Outer leg by straight lines laid along the sampled outside of two legs: from the sawn ring to where the lines
 * meet. `out` is the other leg's direction away from the bend.
 */
function outerLeg(sawn: Ring, bendSide: Ring, other: Ring, out: Vec): number {
  const toBend = unit(sub(bendSide.centre, sawn.centre));
  const outermost = (ring: Ring, to: Vec): Vec =>
    ring.points.reduce((best, p) => (dot(p, to) > dot(best, to) ? p : best));
  const from = outermost(sawn, neg(rejection(out, toBend)));
  const onOther = outermost(other, rejection(toBend, out));
  // from + t·toBend is nearest to the other line at this t.
  const w = sub(onOther, from);
  const c = dot(toBend, out);
  return (dot(w, toBend) - c * dot(w, out)) / (1 - c * c);
}

describe("check sizes against a sampled tube", () => {
  const random = seeded(41);
  const upTo = (n: number): number => Math.round(random() * n * 1000) / 1000;
  const cases = Array.from({ length: 24 }, (_, t) => ({
    n: t + 1,
    list: Array.from(
      { length: 2 + (t % 3) },
      (_, i): Listed => [120 + upTo(200), i === 0 ? 0 : upTo(360) - 180, 10 + upTo(105)],
    ),
    last: 150 + upTo(150),
    trim: { A: upTo(30), B: upTo(30) },
    back: { A: upTo(20), B: upTo(20) },
    arcFactor: 1 + upTo(0.03),
  }));

  test.each(cases)("bar $n of seed 41", ({ list, last, trim, back, arcFactor }) => {
    const [od, clr] = [40, 110];
    const bar = barThrough(cornersOf(list, last, clr), { od, clr, trim, die: { arcFactor } });
    const after = checksAfter(bar, back);
    expect(after.map((a) => a.bend)).toEqual(list.map((_, i) => i + 1));
    list.forEach((_, i) => {
      const made = list
        .slice(0, i + 1)
        .map(([s, r, a], j): Listed => [j === 0 ? s + trim.A - back.A : s, r, a]);
      const rest = list
        .slice(i + 1)
        .reduce((sum, [s, , a]) => sum + s + arcFactor * clr * rad(a), last + trim.B - back.B);
      const rings = surface(made, rest, clr, od);
      const legs = (n: number): readonly [Ring, Ring] => {
        const own = rings.filter((r) => r.leg === n);
        return [own[0]!, own[own.length - 1]!];
      };
      const checks = after[i]!;
      const [tailFrom, tailEnd] = legs(i + 1);
      const [before] = legs(i);
      const [a0, a1] = legs(0);
      expect(value(checks, "leg-B")).toBeCloseTo(outerLeg(tailEnd, tailFrom, before, neg(before.dir)), 2);
      if (i === 0) expect(value(checks, "leg-A")).toBeCloseTo(outerLeg(a0, a1, tailFrom, tailFrom.dir), 2);
      else expect(value(checks, "leg-A")).toBeUndefined();
      expect(value(checks, "end-to-end")).toBeCloseTo(dist(a0.centre, tailEnd.centre), 6);

      const lows = (up: Vec, of: readonly Ring[]): number =>
        of.reduce((low, r) => Math.min(low, ...r.points.map((p) => dot(p, up))), Number.POSITIVE_INFINITY);
      const flat = i === 0;
      const found = value(checks, "off-table");
      if (flat) expect(found).toBeUndefined();
      else {
        const sides = (
          [
            [0, 0, 1],
            [0, 0, -1],
          ] as const
        ).map((up) => {
          const table = -od / 2;
          return {
            dips: lows(up, rings) < table - 0.01,
            end: lows(up, [tailEnd]) - table,
            at: dot(tailEnd.centre, up),
          };
        });
        const lying = sides.filter((s) => !s.dips);
        const expected =
          lying.length === 1 ? lying[0]! : sides[0]!.at >= sides[1]!.at ? sides[0]! : sides[1]!;
        expect(Math.abs(found! - expected.end)).toBeLessThan(0.01);
        const across = checks.checks.find((c) => c.what === "off-table")!.across;
        expect(across.phrase === "check-off-table-over").toBe(lying.length === 0);
      }
    });
  });

  test("round the outside, by a string of points along the outermost line", () => {
    const list: Listed[] = [[200, 0, 75]];
    const bar = barThrough(cornersOf(list, 200, 110), { od: 40, clr: 110 });
    const inBend = surface(list, 200, 110, 40, 4000, 500).filter((r) => r.leg === undefined);
    const outer = inBend.map((r) =>
      r.points.reduce((b, p) => (dist(p, [200, 110, 0]) > dist(b, [200, 110, 0]) ? p : b)),
    );
    const string = outer.slice(1).reduce((sum, p, i) => sum + dist(p, outer[i]!), 0);
    const whole = (string * 500) / 498;
    expect(value(checksAfter(bar, NO_BACK)[0]!, "round-outside")).toBeCloseTo(whole, 1);
  });
});

describe("parallel legs", () => {
  const outsides = (list: readonly Listed[], last: number, od = 45, clr = 135) => {
    const bar = barThrough(cornersOf(list, last, clr), { od, clr });
    return checksAfter(bar, NO_BACK).map((a) => a.checks.filter((c) => c.what === "parallel-legs"));
  };

  test("a U and a kick, against the sampled outside", () => {
    for (const list of [
      [
        [300, 0, 90],
        [585, 0, 90],
      ],
      [
        [300, 0, 21],
        [60, 180, 21],
      ],
      [
        [300, 0, 60],
        [200, 0, 60],
        [150, 0, 60],
      ],
    ] as const) {
      const found = outsides(list, 400);
      const last = found[found.length - 1]!;
      expect(last.length).toBe(1);
      const rings = surface(list, 400, 135, 45);
      const first = rings[0]!;
      const end = rings[rings.length - 1]!;
      expect(len(cross(first.dir, end.dir))).toBeLessThan(1e-9);
      const across = unit(rejection(sub(end.centre, first.centre), first.dir));
      const spread = rings
        .filter((r) => r === first || r === end)
        .flatMap((r) => r.points.map((p) => dot(p, across)));
      expect(last[0]!.value).toBeCloseTo(Math.max(...spread) - Math.min(...spread), 2);
      expect(found.slice(0, -1).flat()).toEqual([]);
    }
  });

  test("named legs; 0.1° is the limit of parallel", () => {
    expect(
      written(
        outsides(
          [
            [300, 0, 90],
            [585, 0, 90],
          ],
          300,
        )[1]![0]!.across,
        WRITER,
        IDS,
      ),
    ).toBe("outside to outside, square across at bend 2, the leg at end A to the leg at end B");
    expect(
      outsides(
        [
          [300, 0, 90],
          [585, 0, 89.91],
        ],
        300,
      )[1]!.length,
    ).toBe(1);
    expect(
      outsides(
        [
          [300, 0, 90],
          [585, 0, 89.89],
        ],
        300,
      )[1]!.length,
    ).toBe(0);
  });

  test("a leg between two bends is named by them", () => {
    const found = outsides(
      [
        [300, 0, 45],
        [300, 0, 90],
        [400, 0, 90],
      ],
      300,
    );
    expect(found[2]!.map((c) => written(c.across, WRITER, IDS))).toEqual([
      "outside to outside, square across at bend 3, the leg between bends 1 and 2 to the leg at end B",
    ]);
  });
});

describe("which checks a bend has", () => {
  test("past 120° the outer lines meet too far away", () => {
    const at = (angle: number): CheckCode[] =>
      checksAfter(barThrough(cornersOf([[300, 0, angle]], 300, 135)), NO_BACK)[0]!.checks.map((c) => c.what);
    expect(at(119.999)).toContain("leg-A");
    expect(at(120.001)).not.toContain("leg-A");
    expect(at(120.001)).toContain("end-to-end");
  });

  test("fed from B the bends come in the other order and the lead leg is B's", () => {
    const list: Listed[] = [
      [300, 0, 40],
      [250, 0, 70],
    ];
    const bar = barThrough(cornersOf(list, 310, 135), { fromEnd: "B" });
    const after = checksAfter(bar, NO_BACK);
    expect(after.map((a) => a.bend)).toEqual([2, 1]);
    const tan = Math.tan(rad(70) / 2);
    expect(value(after[0]!, "leg-B")).toBeCloseTo(310 + 157.5 * tan, 9);
    expect(value(after[0]!, "leg-A")).toBeCloseTo(300 + 250 + 135 * rad(40) + 157.5 * tan, 9);
    expect(value(after[1]!, "leg-B")).toBeUndefined();
  });

  test.each([200, -200])(
    "a hump of %d whose end comes back to the plane lies on the other side of it",
    (z) => {
      const nodes: Vec[] = [
        [0, 0, 0],
        [300, 0, 0],
        [300, 300, 0],
        [300, 500, z],
        [300, 700, 0],
      ];
      const last = checksAfter(barThrough(nodes), NO_BACK)[2]!.checks.find((c) => c.what === "off-table")!;
      expect(last.value).toBeCloseTo(22.5 * (1 - Math.cos(rad(45))), 9);
      expect(written(last.across, WRITER, IDS)).toBe(
        "table to the underside of sawn end B, the bar flat on the plane of bend 1",
      );
    },
  );

  test("a flat bar is not asked to stand off the table", () => {
    const bar = barThrough(
      cornersOf(
        [
          [300, 0, 90],
          [300, 180, 90],
        ],
        300,
        135,
      ),
    );
    expect(checksAfter(bar, NO_BACK).flatMap((a) => a.checks.map((c) => c.what))).not.toContain("off-table");
  });
});
