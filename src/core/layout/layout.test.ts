import { describe, expect, it } from "vitest";
import { readJob } from "../job/index.ts";
import { dist } from "../space/index.ts";
import { layOut, mutualEnds, nearlyInLine } from "./index.ts";

const base = {
  format: "tubewright job",
  version: 2,
  tubes: { main: { od: 45, wall: 2.5 }, light: { od: 40, wall: 2 }, thin: { od: 30, wall: 2 } },
  dies: { d45: { od: 45, clr: 135 }, d40: { od: 40, clr: 120 }, d30: { od: 30, clr: 90 } },
  plates: { l: { at: [0, 600, 0], normal: [0, 0, 1] }, r: { at: [0, -600, 0], normal: [0, 0, 1] } },
  points: { post: { at: [500, 500, 100], sd: 1 } },
};
const hoop = {
  tube: "main",
  die: "d45",
  path: [{ plate: "l" }, [0, 600, 900], [0, -600, 900], { plate: "r" }],
};

function lay(bars: Record<string, object>) {
  const read = readJob({ ...base, bars: { hoop, ...bars } });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return { job: read.job, layout: layOut(read.job) };
}

/** The codes found of one bar, or its landing at A. */
function end(bar: object, which: "start" | "finish" = "start") {
  const { layout } = lay({ bar });
  const laid = layout.bars.find((b) => b.id === "bar")!;
  return { at: laid.bar?.centreline[which], codes: laid.findings.map((f) => f.code), bar: laid.bar };
}
const from = (node: object) => end({ tube: "light", path: [node, [800, 0, 400]] });

describe("where a node of a path is", () => {
  it("along a host, from either end", () => {
    expect(from({ on: "hoop", along: 790 }).at![2]).toBeCloseTo(789.8574, 3);
    expect(from({ on: "hoop", along: -100 }).at).toEqual([0, -600, expect.closeTo(100, 9)]);
  });
  it("beyond a host's end is an error with the numbers", () => {
    const { layout } = lay({ bar: { tube: "light", path: [{ on: "hoop", along: 2900 }, [800, 0, 400]] } });
    const [finding] = layout.bars[1]!.findings;
    expect(finding!.code).toBe("landing-off-host");
    expect((finding!.values.over as { mm: number }).mm).toBeCloseTo(2900 - 2884.115, 3);
    expect(finding!.place).toBe("bars.bar.path[0]");
  });
  it("where a host crosses a plane", () => {
    expect(from({ on: "hoop", z: 620, near: "left" }).at).toEqual([0, 600, 620]);
    expect(from({ on: "hoop", z: 620, near: "right" }).at).toEqual([0, -600, 620]);
    expect(from({ on: "hoop", z: 620, near: [0, -500, 600] }).at).toEqual([0, -600, 620]);
    expect(from({ on: "hoop", y: 0 }).at).toEqual([0, 0, 900]);
  });
  it.each([
    ["crossing-several", { on: "hoop", z: 620 }],
    ["crossing-none", { on: "hoop", z: 1000 }],
    ["crossing-none", { on: "hoop", x: 5 }],
    ["crossing-tie", { on: "hoop", z: 620, near: "top" }],
    ["crossing-tie", { on: "hoop", z: 620, near: [100, 0, 620] }],
    ["crossing-in-plane", { on: "hoop", z: 900, near: "left" }],
    ["crossing-in-plane", { on: "hoop", x: 0, near: "left" }],
  ])("%s", (code, node) => {
    expect(from(node).codes).toEqual([code]);
  });
  it("closest to a place, a point, another landing", () => {
    expect(from({ on: "hoop", toward: [300, 700, 500] }).at).toEqual([0, 600, 500]);
    expect(from({ on: "hoop", toward: { point: "post", by: [0, 0, 50] } }).at).toEqual([0, 600, 150]);
    expect(from({ on: "hoop", toward: { on: "hoop", along: 200 } }).at).toEqual([0, 600, 200]);
  });
  it("closest at an end, or at two places as near, is a warning beside the answer", () => {
    const atEnd = from({ on: "hoop", toward: [0, 600, -50] });
    expect(atEnd.codes).toEqual(["toward-end"]);
    expect(atEnd.at).toEqual([0, 600, 0]);
    const tie = from({ on: "hoop", toward: [0, 0, 300] });
    expect(tie.codes).toEqual(["toward-tie"]);
    expect(tie.at).toBeDefined();
  });
  it("off moves the landing, and a step starts from there", () => {
    const { bar } = end({
      tube: "light",
      path: [{ on: "hoop", along: 300, off: [10, 0, 5] }, { step: [400, 0, 0] }],
    });
    expect(bar!.centreline.start).toEqual([10, 600, 305]);
    expect(bar!.centreline.finish).toEqual([410, 600, 305]);
  });
});

describe("mirrors", () => {
  it("land on the twin of their host, or on the same host at L − s", () => {
    const { layout } = lay({
      stay: { tube: "light", path: [{ on: "hoop", along: 700 }, [-800, 500, 200]] },
      stayR: { mirrorOf: "stay" },
      tie: { tube: "light", path: [{ on: "stay", along: 300, off: [0, 0, 3] }, [-400, 0, 500]] },
      tieR: { mirrorOf: "tie", trim: { A: 7 } },
    });
    const bars = layout.byId;
    const stay = bars.get("stayR")!.seat.A;
    expect(stay.kind === "on" && [stay.hosts, stay.along]).toEqual([["hoop"], expect.closeTo(2184.115, 2)]);
    const tie = bars.get("tieR")!.seat.A;
    expect(tie.kind === "on" && [tie.hosts, tie.along, tie.off]).toEqual([["stayR"], 300, [0, 0, 3]]);
    expect(bars.get("tieR")!.trim).toEqual({ A: 7, B: 0 });
    expect(bars.get("tieR")!.centreline.finish).toEqual([-400, 0, 500]);
  });
  it("have no geometry where the host is neither", () => {
    const { layout } = lay({
      side: {
        tube: "light",
        path: [
          [-300, 300, 0],
          [-300, 310, 800],
        ],
      },
      bar: { tube: "light", path: [{ on: "side", along: 400 }, [400, 200, 500]] },
      twin: { mirrorOf: "bar" },
    });
    expect(layout.bars.find((b) => b.id === "twin")!.findings.map((f) => f.code)).toEqual(["mirror-host"]);
  });
  it("what stands on a bar without geometry has none either, and says so", () => {
    const { layout } = lay({
      bad: {
        tube: "light",
        die: "d40",
        path: [
          [0, 0, 0],
          [100, 0, 0],
          [100, 100, 0],
        ],
      },
      on: { tube: "light", path: [{ on: "bad", along: 20 }, [0, 300, 300]] },
      twin: { mirrorOf: "on" },
    });
    expect(layout.bars.map((b) => b.findings.map((f) => f.code).join())).toEqual([
      "",
      "straight-short,straight-short",
      "host-without-geometry",
      "host-without-geometry",
    ]);
  });
});

describe("a bar that follows another", () => {
  const run = (follow: object) =>
    end({
      tube: "thin",
      die: "d30",
      path: [
        [0, 500, 100],
        [0, -500, 100],
      ],
      follow,
    });
  it("runs at the gap face to face, round the inside and the outside of the bends", () => {
    const inside = run({ bar: "hoop", gap: 60, side: "inside", from: 200, to: 2684.115 });
    const reach = 60 + 22.5 + 15;
    const corners = inside.bar!.centreline.bends.map((b) => b.corner.map((c) => Number(c.toFixed(3))));
    const y = 600 - reach;
    expect(corners).toEqual([
      [0, y, 200],
      [0, y, 900 - reach],
      [0, -y, 900 - reach],
      [0, -y, 200],
    ]);
    const outside = run({ bar: "hoop", gap: 60, side: [0, 1, 0], from: 200, to: 2684.115 });
    expect(outside.bar!.centreline.bends[1]!.corner[1]).toBeCloseTo(600 + reach, 9);
  });
  it("says how far the gap departs in the bends, and nothing where the bends are concentric", () => {
    // geometry.md: g + (D − R1 + R2)(1/cos(θ/2) − 1) inside the bend
    const { codes, bar } = run({ bar: "hoop", gap: 60, side: "inside", from: 200, to: 2684.115 });
    expect(codes).toEqual(["follow-departs", "follow-departs"]);
    expect(bar).toBeDefined();
    const { layout } = lay({
      bar: {
        tube: "thin",
        die: "d30",
        path: [
          [0, 500, 100],
          [0, -500, 100],
        ],
        follow: { bar: "hoop", gap: 60, side: "inside", from: 200, to: 2684.115 },
      },
    });
    const gap = layout.bars[1]!.findings[0]!.values.gap as { mm: number };
    const D = 60 + 22.5 + 15;
    expect(gap.mm).toBeCloseTo(60 + (D - 135 + 90) * (1 / Math.cos(Math.PI / 4) - 1), 6);
    // concentric: R2 = R1 − D, so D = 45 and the gap 45 − 37.5
    expect(run({ bar: "hoop", gap: 7.5, side: "inside", from: 200, to: 2684.115 }).codes).toEqual([]);
  });
  it("does not say that it departs by less than the shop's own gap", () => {
    const read = (gap: number | undefined) => {
      const follow = { bar: "hoop", gap: 8, side: "inside", from: 200, to: 2684.115 };
      const path = [
        [0, 500, 100],
        [0, -500, 100],
      ];
      const bars = { hoop, bar: { tube: "thin", die: "d30", path, follow } };
      const job = readJob({ ...base, ...(gap === undefined ? {} : { shop: { gap } }), bars });
      if (!job.ok) throw new Error(JSON.stringify(job.problems));
      return job.job;
    };
    // 8 instead of the concentric 7.5: (45.5 − 45)(1/cos 45° − 1) = 0.207 over
    const codes = (gap: number | undefined, from?: ReturnType<typeof layOut>) => {
      const layout = layOut(read(gap), from);
      return { layout, codes: layout.bars[1]!.findings.map((f) => f.code) };
    };
    const first = codes(undefined);
    expect(first.codes).toEqual([]);
    expect(codes(0.208).codes).toEqual([]);
    // the shop's gap was changed: the note comes at once
    expect(codes(0.206, first.layout).codes).toEqual(["follow-departs", "follow-departs"]);
  });
  it("runs the other way when from lies beyond to", () => {
    const there = end({
      tube: "thin",
      die: "d30",
      path: [
        [-80, 500, 100],
        [-80, -500, 100],
      ],
      follow: { bar: "hoop", gap: 60, side: "inside", from: 200, to: 2684 },
    });
    const back = end({
      tube: "thin",
      die: "d30",
      path: [
        [-80, -500, 100],
        [-80, 500, 100],
      ],
      follow: { bar: "hoop", gap: 60, side: "inside", from: 2684, to: 200 },
    });
    expect(back.bar!.centreline.length).toBeCloseTo(there.bar!.centreline.length, 9);
  });
  it.each([
    ["follow-side", { bar: "hoop", gap: 60, side: [0, 0, 1], from: 200, to: 300 }],
    ["follow-range", { bar: "hoop", gap: 60, side: "inside", from: 200, to: 9000 }],
    ["follow-range", { bar: "hoop", gap: 60, side: "inside", from: 200, to: 200 }],
  ])("%s", (code, follow) => {
    expect(run(follow).codes).toEqual([code]);
  });
});

describe("ends that are coped to each other", () => {
  it("are found, each pair once; a triangle of bars is none", () => {
    const crowd = lay({
      a: { tube: "light", path: [{ on: "hoop", along: 500, also: ["b"] }, [-600, 500, 500]] },
      b: { tube: "light", path: [{ on: "hoop", along: 520, also: ["a"] }, [-600, 300, 800]] },
    });
    expect(mutualEnds(crowd.layout).map((f) => f.code)).toEqual(["ends-coped-to-each-other"]);
    const triangle = lay({
      x: { tube: "light", path: [{ on: "hoop", along: 500, also: ["y"] }, [-600, 500, 500]] },
      y: {
        tube: "light",
        path: [
          { on: "hoop", along: 560 },
          { on: "x", along: 400 },
        ],
      },
    });
    expect(mutualEnds(triangle.layout)).toEqual([]);
  });
});

describe("an edit", () => {
  it("lays out anew the bar and what depends on it, and nothing else", () => {
    const bars = {
      stay: { tube: "light", path: [{ on: "hoop", along: 700 }, [-800, 500, 200]] },
      stayR: { mirrorOf: "stay" },
      tie: {
        tube: "light",
        path: [
          { on: "stay", along: 300 },
          { on: "stayR", along: 300 },
        ],
      },
      lone: {
        tube: "light",
        path: [
          [1000, 0, 0],
          [1000, 0, 500],
        ],
      },
      cross: {
        tube: "light",
        path: [
          { on: "hoop", z: 300, near: "left" },
          { on: "hoop", z: 300, near: "right" },
        ],
      },
    };
    const { layout } = lay(bars);
    const again = layOut(lay(bars).job, layout);
    for (const [i, laid] of again.bars.entries()) expect(laid).toBe(layout.bars[i]);
    const edited = { ...bars, stay: { ...bars.stay, path: [{ on: "hoop", along: 710 }, [-800, 500, 200]] } };
    const after = layOut(lay(edited).job, layout);
    const kept = after.bars.filter((laid, i) => laid === layout.bars[i]).map((b) => b.id);
    expect(kept).toEqual(["hoop", "lone", "cross"]);
    expect(
      dist(after.byId.get("tie")!.centreline.start, layout.byId.get("tie")!.centreline.start),
    ).toBeGreaterThan(1);
  });
});

describe("two halves of a cross", () => {
  // The through bar runs up at x = 500; the halves' far ends are 500 before and behind it, at the same height.
  const cross = (height: number, other = height) =>
    nearlyInLine(
      lay({
        through: {
          tube: "light",
          path: [
            [500, 0, 0],
            [500, 0, 1000],
          ],
        },
        front: { tube: "thin", path: [[1000, 0, 400], { on: "through", along: height }] },
        rear: { tube: "thin", path: [{ on: "through", along: other }, [0, 0, 400]] },
      }).layout.byId.values(),
    );

  it("that an eye took for one line are told by how much they are out, and where both would be in line", () => {
    // By hand: 24 up in 500 is 2.748° each side, 5.496° in all; at 400 they are one line.
    expect(cross(424)).toEqual([
      {
        code: "nearly-in-line",
        place: "bars.front",
        bar: "front",
        values: {
          bar: { bar: "front" },
          other: { bar: "rear" },
          host: { bar: "through" },
          angle: { deg: expect.closeTo(2 * Math.atan(24 / 500) * (180 / Math.PI), 9) },
          along: { mm: expect.closeTo(400, 9) },
        },
      },
    ]);
  });
  it("that are in line, or make a corner, or land apart, are left alone", () => {
    expect(cross(400)).toEqual([]);
    expect(cross(402)).toEqual([]); // 0.46°: no angle finder reads it
    expect(cross(440)).toEqual([]); // 9.15°
    expect(cross(424, 376)).toEqual([]); // one above the other
  });
});
