import { describe, expect, it } from "vitest";
import { barOf } from "../../../tests/bars.ts";
import { placeAt } from "../bar/index.ts";
import { deg, rad, seeded } from "../numeric/index.ts";
import { add, type Vec } from "../space/index.ts";
import { bestCut } from "./best.ts";
import { nearest } from "./host.ts";
import { copeOf, type NotchSettings, notchOf } from "./index.ts";
import { FEATHER, ROUND, sawBack, settle, type Wall } from "./saw.ts";

const settings: NotchSettings = { saws: [], steepest: rad(60), wrapBeyond: 1 };
const post = barOf("post", 45, 2.5, [
  [0, 0, -400],
  [0, 0, 400],
]);
const codes = (notch: ReturnType<typeof notchOf>): string[] => notch!.findings.map((f) => f.code);

function straight(start: Vec, options: Partial<NotchSettings> = {}, off: Vec = [0, 0, 0], od = 40) {
  const bar = barOf("bar", od, 2, [start, off], { B: { on: "post", along: 400, off } });
  const made = copeOf(bar, "B", [post]);
  return { made, bar, notch: notchOf(bar, "B", made, { ...settings, ...options })! };
}

describe("one straight host", () => {
  it("the saw on the host's own axis is exact, at any lean and offset that it spans", () => {
    const random = seeded(3);
    for (let k = 0; k < 40; k++) {
      const start: Vec = [300, 200 * (random() - 0.5), 300 * (random() - 0.5)];
      const off: Vec = random() < 0.5 ? [0, 0, 0] : [0, 2 * (random() - 0.5), 0];
      const { notch, made } = straight(start, {}, off);
      expect(notch.exact).toBe(true);
      expect(notch.useWrap).toBe(false);
      const cut = notch.saw!.cut;
      for (let i = 0; i < 360; i += 7) {
        const [c, s] = ROUND[i]!;
        expect(Math.abs(sawBack(cut, 20, c, s) - made.cope.outer[i]!)).toBeLessThan(1e-6);
        expect(Math.abs(sawBack(cut, 18, c, s) - made.cope.bore[i]!)).toBeLessThan(1e-6);
      }
    }
  });
  it("the hole's centre from the long point and from the sawn end (40 on 45: the long point stops 10.308 short)", () => {
    const { notch, bar } = straight([300, 0, 0]);
    expect(notch.hole!.beyondLong).toBeCloseTo(10.3078, 4);
    expect(notch.hole!.fromSawn).toBeCloseTo(bar.trim.B - 10.3078, 4);
    expect(notch.hole!.fromBend).toBeUndefined();
  });
  it("the heel lies on the side of the sharp angle", () => {
    // The bar comes from above: its underside makes the sharp angle with the post below... the upper side the blunt one.
    const { notch } = straight([300, 0, 300]);
    expect(deg(notch.saw!.cut.notch)).toBeCloseTo(45, 9);
    expect(Math.abs(Math.cos(notch.saw!.cut.clock) - 1)).toBeLessThan(1e-12);
  });
  it("past the notcher's limit, or without a saw that spans the tube, it says so", () => {
    const steep = straight([100, 0, 190]);
    expect(codes(steep.notch)).toContain("notch-steep");
    expect(steep.notch.exact).toBe(false);
    expect(deg(steep.notch.saw!.cut.notch)).toBeLessThanOrEqual(60 + 1e-9);
    const small = straight([300, 0, 0], { saws: [15, 19] });
    expect(codes(small.notch)).toEqual(["notch-no-saw"]);
    expect(small.notch.findings[0]!.values).toMatchObject({ od: { mm: 40 }, missing: { mm: 45 } });
    expect(small.notch.useWrap).toBe(true);
    expect(small.notch.hole).toBeUndefined();
  });
  it("a cut that leaves more than the tube's own diameter is no saw cut: no figures, and not for want of a saw", () => {
    // 71.6° off square with a notcher that goes to 60°
    for (const saws of [[], [22.5, 25]]) {
      const { notch } = straight([100, 0, 300], { saws });
      expect(codes(notch)).toEqual(["notch-steep", "notch-no-cut"]);
      expect([notch.saw, notch.hole, notch.steps]).toEqual([undefined, undefined, undefined]);
      expect([notch.useWrap, notch.exact]).toEqual([true, false]);
    }
  });
  it("a rim that misses in part is never exact, whatever the cut leaves where it meets", () => {
    const wide = straight([300, 0, 0], {}, [0, 6, 0]);
    expect(wide.made.cope.misses.length).toBeGreaterThan(0);
    expect([wide.notch.flush, wide.notch.exact]).toEqual([true, false]);
    expect(wide.notch.open).toEqual(wide.made.cope.misses);
    const beyond = { ...wide.made, cope: { ...wide.made.cope, misses: [], beyondHost: [[10, 20] as const] } };
    const notch = notchOf(wide.bar, "B", beyond, settings)!;
    expect([notch.exact, notch.open]).toEqual([false, [[10, 20]]]);
  });
});

/** A bar onto the bend of a hoop. */
function ontoBend(clr: number, d: Vec, od = 40, at = 0.5) {
  const hoop = barOf(
    "hoop",
    45,
    2.5,
    [
      [0, 600, 0],
      [0, 600, 900],
      [0, -600, 900],
      [0, -600, 0],
    ],
    {},
    clr,
  );
  const bend = hoop.centreline.bends[0]!;
  const s = bend.start + at * (bend.end - bend.start);
  const landing = placeAt(hoop.centreline, s).at;
  const bar = barOf("bar", od, 2, [add(landing, d), landing], { B: { on: "hoop", along: s } });
  return { bar, made: copeOf(bar, "B", [hoop]) };
}

function wallsOf({ made }: { made: ReturnType<typeof copeOf> }): Wall[] {
  const { cope, joint } = made;
  return (
    [
      [cope.outerRadius, cope.outer],
      [cope.boreRadius, cope.bore],
    ] as const
  ).map(([rho, back]) => ({
    rho,
    back,
    square: back.map((b, i) => {
      const [c, s] = ROUND[i]!;
      return Math.min(1, Math.max(1e-9, nearest(joint!.solids, rho * c, rho * s, -b - 1e-4) / 1e-4));
    }),
  }));
}

describe("a bent host: the best cut found", () => {
  const joints = [
    ontoBend(135, [500, 0, 0]),
    ontoBend(135, [400, -100, 200]),
    ontoBend(90, [0, -300, -300]),
    ontoBend(120, [300, 200, -100], 45, 0.2),
  ];

  it("takes no metal that the joint needs, to within a feather", () => {
    for (const joint of joints) {
      const walls = wallsOf(joint);
      const fit = bestCut(joint.made.joint!.hosts, walls, settings)!;
      for (const { rho, back, square } of walls) {
        for (let i = 0; i < 360; i++) {
          const [c, s] = ROUND[i]!;
          const deeper = (sawBack(fit.cut, rho, c, s, FEATHER) - back[i]!) * square[i]!;
          expect(deeper).toBeLessThanOrEqual(FEATHER + 1e-9);
        }
      }
      expect(fit.most).toBeGreaterThan(0.05);
    }
  });

  it("no cut of a brute-force grid leaves less standing, by more than a tenth of it", () => {
    for (const joint of joints) {
      const walls = wallsOf(joint);
      const fit = bestCut(joint.made.joint!.hosts, walls, settings)!;
      let best = Infinity;
      const { cut } = fit;
      // The whole range of clocks and angles coarsely, and closely round the answer.
      const tries: [number, number, number][] = [];
      for (let n = 0; n <= 60; n += 6)
        for (let c = 0; c < 360; c += 10) for (const e of [-1, 0, 1]) tries.push([rad(n), rad(c), e]);
      for (let n = -6; n <= 6; n++) {
        for (let c = -6; c <= 6; c++) {
          for (let e = -3; e <= 3; e++) {
            tries.push([Math.max(0, cut.notch + rad(n / 2)), cut.clock + rad(2 * c), cut.offset + e / 4]);
          }
        }
      }
      for (const [notch, clock, offset] of tries) {
        const other = settle({ radius: cut.radius, notch, clock, offset, centre: 0 }, walls);
        if (other && other.most < best) best = other.most;
      }
      expect(fit.most).toBeLessThan(best * 1.1);
    }
  });

  it("says the gap that it leaves, and to use the wrap beyond the gap accepted", () => {
    const { bar, made } = joints[0]!;
    const loose = notchOf(bar, "B", made, { ...settings, wrapBeyond: 10 })!;
    const tight = notchOf(bar, "B", made, { ...settings, wrapBeyond: 0.01 })!;
    expect(loose.saw!.gap).toBe(Math.max(...loose.saw!.gaps));
    expect(loose.saw!.gaps[loose.saw!.gapAt]).toBe(loose.saw!.gap);
    expect([loose.useWrap, tight.useWrap]).toEqual([false, true]);
    expect(codes(tight)).toEqual(["notch-gap"]);
  });

  it("a mirrored bar gets the mirrored setting to the last digit", () => {
    const { bar, made } = joints[1]!;
    const hoop = barOf(
      "hoop",
      45,
      2.5,
      [
        [0, 600, 0],
        [0, 600, 900],
        [0, -600, 900],
        [0, -600, 0],
      ],
      {},
      135,
    );
    const flip = (v: Vec): Vec => [v[0], -v[1], v[2]];
    const seat = bar.seat.B;
    if (seat.kind !== "on") throw new Error("lands on the hoop");
    const twin = {
      ...barOf("twin", 40, 2, [flip(bar.centreline.start), flip(bar.centreline.finish)], {
        B: { on: "hoop", along: hoop.centreline.length - seat.along },
      }),
      mirrorOf: "bar",
    };
    const here = notchOf(bar, "B", made, settings)!.saw!;
    const there = notchOf(twin, "B", copeOf(twin, "B", [hoop]), settings)!.saw!;
    expect(there.cut.clock).toBeCloseTo(-here.cut.clock, 6);
    expect(there.cut.offset).toBeCloseTo(-here.cut.offset, 6);
    expect(there.most).toBeCloseTo(here.most, 6);
  });
});

describe("a crowded end", () => {
  it("gets one exact cut for each straight host; together they are the curve", () => {
    const brace = barOf("brace", 30, 2, [
      [25, -300, -300],
      [25, 280, 314],
    ]);
    const bar = barOf(
      "bar",
      38,
      2,
      [
        [300, -150, 100],
        [0, 0, 0],
      ],
      { B: { on: "post", along: 400, also: ["brace"] } },
    );
    const made = copeOf(bar, "B", [post, brace]);
    const notch = notchOf(bar, "B", made, settings)!;
    expect(notch.cuts.map((c) => c.host)).toEqual(["post", "brace"]);
    expect(notch.exact).toBe(false);
    for (let i = 0; i < 360; i += 5) {
      const [c, s] = ROUND[i]!;
      const backs = notch.cuts.map((k) => sawBack(k.cut, 19, c, s)).filter((b) => !Number.isNaN(b));
      expect(Math.abs(Math.max(...backs) - made.cope.outer[i]!)).toBeLessThan(1e-6);
    }
  });
});
