import { describe, expect, it } from "vitest";
import { barOf } from "../../../tests/bars.ts";
import { placeAt } from "../bar/index.ts";
import { rad, seeded } from "../numeric/index.ts";
import { add, type Vec } from "../space/index.ts";
import { copeOf } from "./index.ts";

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
const landing: Vec = [0, 560.4594, 860.4594];
const along = 765 + (135 * Math.PI) / 4;
const eighths = (curve: Float64Array): number[] => [0, 45, 90, 135, 180, 225, 270, 315].map((i) => curve[i]!);

describe("worked values of geometry.md: the hoop's left bend as host", () => {
  const bend = { B: { on: "hoop", along } };
  const from = (start: Vec) => copeOf(barOf("bar", 40, 2, [start, landing], bend), "B", [hoop]).cope;
  const inside = (d: Vec, l: number): Vec => add(landing, [-d[0] * l, -d[1] * l, -d[2] * l]);
  const r2 = Math.SQRT1_2;
  const tangent = placeAt(hoop.centreline, along).dir;
  const at = placeAt(hoop.centreline, along).at;
  const straight = barOf("hoop", 45, 2.5, [
    add(at, [0, -500 * tangent[1], -500 * tangent[2]]),
    add(at, [0, 500 * tangent[1], 500 * tangent[2]]),
  ]);

  it.each<[string, () => Float64Array, readonly number[]]>([
    [
      "straight and level, outside",
      () => from([800, 560.4594, 860.4594]).outer,
      [16.938, 10.308, 16.938, 22.452, 18.135, 10.308, 18.135, 22.452],
    ],
    [
      "straight and level, bore",
      () => from([800, 560.4594, 860.4594]).bore,
      [18.166, 13.5, 18.166, 22.468, 18.99, 13.5, 18.99, 22.468],
    ],
    [
      "from inside the hoop",
      () => from(inside([0, r2, r2], 500)).outer,
      [24.292, 18.354, 10.308, 18.354, 24.292, 18.354, 10.308, 18.354],
    ],
    [
      "the same onto a straight host along the tangent there",
      () =>
        copeOf(
          barOf("bar", 40, 2, [inside([0, r2, r2], 500), landing], { B: { on: "hoop", along: 500 } }),
          "B",
          [straight],
        ).cope.outer,
      [22.5, 17.5, 10.308, 17.5, 22.5, 17.5, 10.308, 17.5],
    ],
    [
      "leaning",
      () => from(inside([-0.8, 0, 0.6], 500)).outer,
      [11.974, 12.433, 27.452, 36.42, 26.811, 10.673, 13.696, 15.624],
    ],
  ])("%s", (_, curve, worked) => {
    eighths(curve()).forEach((b, i) => {
      expect(Math.abs(b - worked[i]!)).toBeLessThan(0.0011);
    });
  });
});

/** Random joints of the harder kinds, for the slow twin. */
function randomJoint(random: () => number) {
  const h = 15 + 10 * random();
  const r = 10 + (h - 10) * random();
  const tilt = (k: number): number => k * (random() - 0.5);
  const host = barOf(
    "host",
    2 * h,
    2,
    [
      [-600, 0, -300],
      [0, 0, 0],
      [tilt(400), 500, 400],
    ],
    {},
    2.5 * h + 100 * random(),
  );
  const bend = host.centreline.bends[0]!;
  const s = bend.start + (bend.end - bend.start) * (1.6 * random() - 0.3);
  const at = placeAt(host.centreline, s).at;
  const off: Vec = random() < 0.4 ? [tilt(8), tilt(8), tilt(8)] : [0, 0, 0];
  const other = barOf("other", 30, 2, [add(at, [20, -300, 260]), add(at, [35, 300, -200])]);
  const also = random() < 0.3 ? [other] : [];
  const d: Vec = [0.9 + tilt(0.8), -0.7 + tilt(0.8), 0.9 + tilt(0.8)];
  const start = add(at, [250 * d[0], 250 * d[1], 250 * d[2]]);
  const bar = barOf("bar", 2 * r, 2, [start, add(at, off)], {
    B: { on: "host", along: s, off, also: also.map((o) => o.id) },
  });
  return { made: copeOf(bar, "B", [host, ...also]), bar, hosts: [host, ...also] };
}

/** Distance from a place to a bar's centreline, its end straights run on, by dense sampling and refinement. */
function slowDistance(line: (typeof hoop)["centreline"], p: Vec): number {
  const d = (s: number): number => {
    const q = placeAt(line, s).at;
    return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
  };
  let best = 0;
  for (let s = -300; s <= line.length + 300; s += 3) if (d(s) < d(best)) best = s;
  let step = 3;
  while (step > 1e-7) {
    if (d(best - step) < d(best)) best -= step;
    else if (d(best + step) < d(best)) best += step;
    else step /= 2;
  }
  return d(best);
}

describe("the curve against a slow twin (seed 5)", () => {
  const random = seeded(5);
  it("is on a host's surface at every line, and nothing of a host lies before it", () => {
    let met = 0;
    for (let k = 0; k < 25; k++) {
      const { made, hosts } = randomJoint(random);
      const { landing: from, out, zero } = made.cope;
      const quarter: Vec = [
        out[1] * zero[2] - out[2] * zero[1],
        out[2] * zero[0] - out[0] * zero[2],
        out[0] * zero[1] - out[1] * zero[0],
      ];
      const clear = (rho: number, phi: number, b: number): number => {
        const p = [0, 1, 2].map(
          (i) => from[i]! + rho * (Math.cos(phi) * zero[i]! + Math.sin(phi) * quarter[i]!) - b * out[i]!,
        );
        const cutTo = hosts.filter((h) => made.cope.onto.includes(h.id));
        return Math.min(...cutTo.map((h) => slowDistance(h.centreline, p as unknown as Vec) - h.tube.od / 2));
      };
      for (const [curve, rho] of [
        [made.cope.outer, made.cope.outerRadius],
        [made.cope.bore, made.cope.boreRadius],
      ] as const) {
        for (let i = 0; i < 360; i += 24) {
          const b = curve[i]!;
          const start = made.joint!.from;
          if (Number.isNaN(b)) {
            for (let t = start; t > -80; t -= 0.5) expect(clear(rho, rad(i), t)).toBeGreaterThan(0);
            continue;
          }
          met++;
          expect(Math.abs(clear(rho, rad(i), b))).toBeLessThan(0.0011);
          for (let t = start; t > b + 0.05; t -= 4) expect(clear(rho, rad(i), t)).toBeGreaterThan(-1e-6);
        }
      }
    }
    expect(met).toBeGreaterThan(500);
  });

  it("straight lines' closed forms agree with the general walk of a bent bar", () => {
    // A bar with a bend of 0.01° just before its landing has to be walked; without it the closed forms serve.
    for (let k = 0; k < 6; k++) {
      const d: Vec = [0.6 + random(), random() - 0.5, random() - 0.2];
      const end: Vec = [0, 600, 400 + 500 * random()];
      const near: Vec = add(end, [12 * d[0], 12 * d[1], 12 * d[2]]);
      const far: Vec = add(end, [400 * d[0], 400 * d[1], 400 * d[2]]);
      const landsAt = end[2] <= 765 ? end[2] : 700;
      const seat = { B: { on: "hoop", along: landsAt, off: [0, 0, end[2] - landsAt] as Vec } };
      const fast = copeOf(barOf("bar", 38, 2.5, [far, end], seat), "B", [hoop]);
      const walked = copeOf(barOf("bar", 38, 2.5, [far, add(near, [0, 0.0004, 0]), end], seat, 1), "B", [
        hoop,
      ]);
      expect(fast.joint!.walked).toBe(false);
      expect(walked.joint!.walked).toBe(true);
      // The zero lines differ; compare line by line through the direction of each.
      for (let i = 0; i < 360; i += 15) {
        const a = rad(i);
        const w = walked.cope;
        const q = walked.joint!.axes.quarter;
        const dir = [0, 1, 2].map((j) => Math.cos(a) * w.zero[j]! + Math.sin(a) * q[j]!);
        const f = fast.joint!.axes;
        const cos = dir.reduce((sum, x, j) => sum + x * f.zero[j]!, 0);
        const sin = dir.reduce((sum, x, j) => sum + x * f.quarter[j]!, 0);
        const straight = fast.joint!.back(19, cos, sin);
        const slow = walked.joint!.back(19, Math.cos(a), Math.sin(a));
        if (Number.isNaN(straight)) expect(slow).toBeNaN();
        else expect(Math.abs(slow - straight)).toBeLessThan(0.02);
      }
    }
  });
});

describe("degenerate joints, each with its answer", () => {
  const post = barOf("post", 40, 2, [
    [0, 0, -400],
    [0, 0, 400],
  ]);
  const onto = (od: number, start: Vec, off: Vec = [0, 0, 0]) =>
    copeOf(barOf("bar", od, 2, [start, off], { B: { on: "post", along: 400, off } }), "B", [post]);
  const codes = (made: ReturnType<typeof onto>): string[] => made.findings.map((f) => f.code);

  it("equal diameters graze at the sides and miss nowhere", () => {
    const { cope } = onto(40, [400, 0, 0]);
    expect(cope.misses).toEqual([]);
    expect(cope.least).toBeCloseTo(0, 6);
    expect(Math.abs(cope.outer[90]!)).toBeLessThan(1e-6);
    expect(cope.outer[0]).toBeCloseTo(20, 9);
  });
  it("a line that passes by less than 0.001 mm touches; by more, misses", () => {
    const touching = onto(40.0018, [400, 0, 0]);
    expect(touching.cope.misses).toEqual([]);
    expect(touching.cope.outer[90]).toBeCloseTo(0, 6);
    const missing = onto(40.01, [400, 0, 0]);
    expect(missing.cope.misses.length).toBe(2);
    expect(codes(missing)).toContain("cope-misses");
  });
  it("a tube wider than its host misses on both sides, and says where", () => {
    const made = onto(50, [400, 0, 0]);
    expect(codes(made)).toEqual(["cope-misses", "tube-over-host"]);
    const half = (Math.asin(20.001 / 25) * 180) / Math.PI;
    // The zero line faces up, along the post, so the sides are the lines at 90° and 270° from it.
    expect(made.cope.misses[0]![0]).toBeCloseTo(half, 2);
    expect(made.cope.misses[0]![1]).toBeCloseTo(180 - half, 2);
    expect(made.cope.misses[1]![0]).toBeCloseTo(180 + half, 2);
  });
  it("an arc that misses across φ = 0 is given in two parts, none across 0", () => {
    const made = onto(40, [400, 0, 0], [0, 12, 0]);
    const whole = made.cope.misses.reduce((sum, [a, b]) => sum + b - a, 0);
    expect(made.cope.misses.every(([a, b]) => 0 <= a && a < b && b <= 360)).toBe(true);
    expect(whole).toBeGreaterThan(60);
  });
  it("a bar along its host has no cut", () => {
    const made = onto(30, [0, 0, 390]);
    expect(codes(made)).toEqual(["cope-parallel"]);
    expect(made.cope.outer.every(Number.isNaN)).toBe(true);
    expect(made.cope.misses).toEqual([[0, 360]]);
  });
  it("a bar that passes its host by altogether misses all round", () => {
    const made = onto(30, [400, 0, 0], [0, 60, 0]);
    expect(codes(made)).toEqual(["cope-none"]);
    expect(made.cope.misses).toEqual([[0, 360]]);
    expect(made.cope.least).toBe(0);
  });
  it("a landing close to the host's end is cut as if the host ran on, and says so", () => {
    const bar = barOf(
      "bar",
      30,
      2,
      [
        [400, 0, -395],
        [0, 0, -395],
      ],
      { B: { on: "post", along: 5 } },
    );
    const made = copeOf(bar, "B", [post]);
    expect(codes(made)).toEqual(["landing-beyond-end"]);
    expect(made.cope.outer[0]).toBeCloseTo(20, 9);
    // The lines more than 5 mm below the landing meet only what the post would be beyond its end.
    const half = (Math.acos(5.001 / 15) * 180) / Math.PI;
    expect(made.cope.beyondHost).toHaveLength(1);
    expect(made.cope.beyondHost[0]![0]).toBeCloseTo(180 - half, 2);
    expect(made.cope.beyondHost[0]![1]).toBeCloseTo(180 + half, 2);
    expect(made.cope.misses).toEqual([]);
  });
  it("a plate from its back, a shallow joint, a bar that is inside its host from end to end", () => {
    const plate = { kind: "plate", plate: "p", at: [0, 0, 0], normal: [0, 0, -1] } as const;
    const behind = copeOf(
      barOf(
        "bar",
        30,
        2,
        [
          [0, 0, 400],
          [0, 0, 0],
        ],
        { B: plate },
      ),
      "B",
      [],
    );
    expect(behind.findings.map((f) => f.code)).toContain("plate-behind");
    expect(codes(onto(30, [60, 0, 300]))).toContain("cope-shallow");
    expect(codes(onto(30, [12, 0, 3]))).toEqual(["cope-runs-along"]);
  });
  it("a bend that runs into the joint is followed, and said", () => {
    const bar = barOf(
      "bar",
      30,
      2,
      [
        [400, 0, 300],
        [45, 0, 0],
        [0, 0, 0],
      ],
      { B: { on: "post", along: 400 } },
      90,
    );
    const made = copeOf(bar, "B", [post]);
    expect(codes(made)).toContain("bent-in-joint");
    // In the plane of the bend the inside runs ahead of the outside once the bend has begun, 12 mm from the landing.
    expect(made.cope.outer[0]).not.toBeCloseTo(made.cope.outer[180]!, 2);
    const late = barOf(
      "bar",
      30,
      2,
      [
        [400, 0, 300],
        [60, 0, 0],
        [0, 0, 0],
      ],
      { B: { on: "post", along: 400 } },
      90,
    );
    const clear = copeOf(late, "B", [post]);
    expect(codes(clear)).toEqual([]);
    expect(clear.cope.outer[0]).toBeCloseTo(20, 6);
  });
});
