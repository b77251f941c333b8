/**
 * Corners too small to make, as a person gets them: JSON, card and table. What must come out is figured here from
 * the corners that are left, by hand: legs, tangents of 90° bends and quarter circles.
 */
import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { run as call } from "../cli/run.ts";
import { run as program } from "../programs.ts";

const NEAR = readFileSync(join(import.meta.dirname, "near-straight-corner.json"), "utf8");

interface OneBend {
  readonly n: number;
  readonly angle: number;
  readonly rotation: number;
  readonly start: number;
  readonly mark: number;
  readonly markB: number;
  readonly straightBefore: number;
  readonly small?: boolean;
  readonly off?: number;
}
interface OneBar {
  readonly id: string;
  readonly length: number;
  readonly sawn: number;
  readonly bends: readonly OneBend[];
  readonly lastStraight: number;
  readonly turns: readonly { readonly before: number; readonly amount: number; readonly way?: string }[];
  readonly checks: readonly { readonly after: number }[];
}
interface OneCope {
  readonly bar: string;
  readonly end: string;
  readonly zeroLine: string;
  readonly zero: readonly number[];
  readonly landing: readonly number[];
  readonly outer: readonly { readonly back: number }[];
}

const post = {
  tube: "t",
  path: [
    [0, 0, -300],
    [0, 0, 900],
  ],
};
const job = (bars: object, more: object = {}): string =>
  JSON.stringify({
    format: "tubewright job",
    version: 2,
    name: "Small corners",
    tubes: { t: { od: 40, wall: 2 } },
    dies: { d: { od: 40, clr: 120, arcFactor: 1.02, mark: 5 } },
    bars: { post, ...bars },
    ...more,
  });

async function bend(text: string) {
  const { out, code } = await call(["bend", "job.json", "--json"], { "job.json": text });
  const { bars, findings } = JSON.parse(out) as {
    bars: OneBar[];
    findings: { code: string; bar?: string; severity: string; says: string }[];
  };
  return { code, findings, bar: (id: string) => bars.find((b) => b.id === id)! };
}
async function cope(text: string) {
  const { out } = await call(["cope", "job.json", "--json"], { "job.json": text });
  const { copes } = JSON.parse(out) as { copes: OneCope[] };
  return (bar: string, end: string) => copes.find((c) => c.bar === bar && c.end === end)!;
}
const small = (bar: OneBar) => bar.bends.filter((b) => b.small).map((b) => [b.n, b.off]);
const real = (bar: OneBar) => bar.bends.filter((b) => !b.small);

describe("measured places nearly in line", () => {
  it("are reported with how far off the bar then is, and bent nowhere", async () => {
    const { code, bar, findings } = await bend(NEAR);
    expect(code).toBe(0);
    for (const [id, off] of [
      ["a", 0.004],
      ["b", 0.3],
    ] as const) {
      const { bends, sawn, lastStraight, turns, checks } = bar(id);
      expect(bends).toHaveLength(1);
      expect(bends[0]).toMatchObject({ n: 1, small: true, rotation: 0 });
      expect(bends[0]!.off).toBeCloseTo(off, 6);
      expect(bends[0]!.angle).toBeCloseTo((2 * Math.atan(off / 400) * 180) / Math.PI, 5);
      expect([sawn, lastStraight]).toEqual([800, 800]);
      expect([turns, checks]).toEqual([[], []]);
      expect(findings.filter((f) => f.bar === id && f.code === "bend-small")).toHaveLength(1);
    }
    expect(bar("c").bends).toEqual([]);
    expect(findings.some((f) => f.bar === "c")).toBe(false);
  });

  it("have one zero line and one cut", async () => {
    const at = await cope(NEAR);
    for (const id of ["a", "b", "c"]) {
      expect(at(id, "A")).toMatchObject({ zeroLine: "up", zero: [0, 0, 1] });
      expect(at(id, "A").outer).toEqual(at("c", "A").outer);
    }
  });

  it("have a saw card that says so and shows no step at the bender", async () => {
    const out = mkdtempSync(join(tmpdir(), "tubewright-small-"));
    const file = join(import.meta.dirname, "near-straight-corner.json");
    expect((await call(["cards", file, "--bar", "b", "--out", out])).code).toBe(0);
    const words = program("pdftotext", "-layout", join(out, "bars", "b.pdf"), "-").toString();
    expect(words).toContain("Saw card");
    expect(words).toContain("800.0 mm");
    expect(words.replace(/\s+/g, " ")).toContain(
      "leave out bend 1 and run the tube straight: it turns only 0.086°, too small to make",
    );
    expect(words).not.toMatch(/BEND UNTIL|FEED FIRST|After bend/);
  });
});

/** Two right angles, with a small corner before, one between, and legs of 700, 700 and 600. */
const MIX = {
  tube: "t",
  die: "d",
  trim: { A: 10 },
  path: [
    { on: "post", along: 600 },
    [300, 0.4, 300],
    [700, 0, 300],
    [700, 300.2, 300.6],
    [700, 700, 300],
    [700, 700, 900],
  ],
};
const QUARTER = 120 * (Math.PI / 2);

describe("small corners among real bends", () => {
  it("leave lengths, marks and turns to the bends that are made; bends keep their numbers", async () => {
    const { bar } = await bend(job({ mix: MIX }));
    const mix = bar("mix");
    expect(mix.bends.map((b) => b.n)).toEqual([1, 2, 3, 4]);
    expect(small(mix)).toEqual([
      [1, 0.4],
      [3, 0.6],
    ]);
    const [first, second] = real(mix) as [OneBend, OneBend];
    expect(mix.length).toBeCloseTo(700 + 700 + 600 - 4 * 120 + 2 * QUARTER, 5);
    expect(mix.sawn).toBeCloseTo(mix.length + 0.04 * QUARTER + 10, 5);
    expect(first).toMatchObject({ rotation: 0, angle: 90, straightBefore: 580 });
    expect(first.mark).toBeCloseTo(10 + 580 + 5, 6);
    expect(second.mark).toBeCloseTo(10 + 580 + 1.02 * QUARTER + 460 + 5, 5);
    expect(second.markB).toBeCloseTo(480 + 5, 6);
    expect(second.straightBefore).toBeCloseTo(460, 6);
    expect(second.rotation).toBeCloseTo(90, 6);
    expect(mix.turns).toMatchObject([{ before: 4, amount: 90, way: "clockwise" }]);
    expect(mix.checks.map((c) => c.after)).toEqual([2, 4]);
    expect(mix.bends[2]!.straightBefore).toBeCloseTo(300.2 - 120, 6);
  });

  it("are one with the bar through the other corners, to the last figure of its cards", async () => {
    const path = MIX.path.filter((_, i) => i !== 1 && i !== 3);
    const { bar } = await bend(job({ mix: MIX, plain: { ...MIX, path } }));
    const [mix, plain] = [bar("mix"), bar("plain")];
    expect(plain.bends.map((b) => b.n)).toEqual([1, 2]);
    const unnumbered = (bends: readonly OneBend[]) => bends.map((b) => ({ ...b, n: 0 }));
    expect(unnumbered(real(mix))).toEqual(unnumbered(plain.bends));
    const at = await cope(job({ mix: MIX, plain: { ...MIX, path } }));
    expect(at("mix", "A").outer).toEqual(at("plain", "A").outer);
    expect(at("mix", "A")).toMatchObject({ zeroLine: "bend 2", zero: at("plain", "A").zero });
    expect(at("mix", "B").zeroLine).toBe("bend 4");
  });

  it("mirrored, turns change sign and all else is the same", async () => {
    const { bar } = await bend(job({ mix: MIX, twin: { mirrorOf: "mix" } }));
    const [mix, twin] = [bar("mix"), bar("twin")];
    const turned = (b: OneBend): OneBend => ({ ...b, rotation: b.rotation === 0 ? 0 : -b.rotation });
    expect(twin.bends).toEqual(mix.bends.map(turned));
    expect([twin.sawn, twin.length]).toEqual([mix.sawn, mix.length]);
  });

  it("fed from B the card begins with the bend that has the highest number", async () => {
    const { out } = await call(["bend", "job.json", "--bar", "mix"], {
      "job.json": job({ mix: { ...MIX, fromEnd: "B" } }),
    });
    expect(out.match(/^ {2}bend \d/gm)).toEqual(["  bend 4", "  bend 2"]);
    expect(out).toContain("bend 4: mark 485.0 mm");
    expect(out).toContain("now bend 4 ");
  });

  it("stand in the table only where they are made, in order of bending", async () => {
    const out = mkdtempSync(join(tmpdir(), "tubewright-small-"));
    const text = job({ mix: { ...MIX, fromEnd: "B" } });
    await call(["cards", "job.json", "--out", out, "--csv"], { "job.json": text });
    const rows = readFileSync(join(out, "bends.csv"), "utf8").trim().split("\r\n").slice(1);
    expect(rows.map((r) => r.split(",").slice(0, 3))).toEqual([
      ["mix", "2", "2"],
      ["mix", "4", "1"],
    ]);
    const words = program("pdftotext", "-layout", join(out, "bars", "mix.pdf"), "-").toString();
    expect(words).toContain("After bend 4 the tape must read:");
    expect(words).toContain("After bend 2 the tape must read:");
    expect(words).not.toContain("After bend 1 ");
    expect(words).not.toContain("After bend 3 ");
    expect(words.replace(/\s+/g, " ")).toContain(
      "Mark bend 4: 485.0 mm from sawn end B. Mark bend 2: 595.0 mm from sawn end A",
    );
  });
});

describe("what is left out, and what stays", () => {
  const along = (...corners: readonly (readonly number[])[]) => ({
    tube: "t",
    die: "d",
    path: [{ on: "post", along: 600 }, ...corners],
  });

  it("two small corners in a row are one straight, each with its own distance from it", async () => {
    const { bar } = await bend(job({ bar: along([400, 0.5, 300], [500, 0.9, 300], [900, 0, 300]) }));
    expect(small(bar("bar"))).toEqual([
      [1, 0.5],
      [2, 0.9],
    ]);
    expect(bar("bar").length).toBe(900);
  });

  it("a shallow bow goes only as far as 1 mm: the corner that would take it farther is bent", async () => {
    // Five places on a bow 3 mm high: each turns under 0.5°, all of them left out would be 3 mm off.
    const bow = [150, 300, 450, 600, 750].map((x) => [x, 3 * (1 - ((x - 450) / 450) ** 2), 300]);
    const { bar } = await bend(job({ bar: along(...bow, [900, 0, 300]) }));
    const { bends } = bar("bar");
    expect(real(bar("bar")).length).toBeGreaterThan(0);
    for (const b of bends.filter((x) => x.small)) expect(b.off!).toBeLessThanOrEqual(1);
  });

  it("a corner right beside a bend is no obstacle to it", async () => {
    const { bar, code } = await bend(job({ bar: along([500, 0, 300], [500, 1, 300.005], [500, 600, 300]) }));
    expect(code).toBe(0);
    expect(small(bar("bar"))).toEqual([[2, expect.closeTo(0.005, 5)]]);
    expect(bar("bar").length).toBeCloseTo(500 + 600 - 240 + QUARTER, 5);
  });

  it.each([
    ["0.49° is left out where it costs little", 0.49, 100, true],
    ["0.51° is a bend", 0.51, 100, false],
    ["0.49° stays where leaving it out would cost over 1 mm", 0.49, 600, false],
  ])("%s", async (_, degrees, leg, isSmall) => {
    const to = leg * Math.tan((degrees * Math.PI) / 180);
    const { bar, findings } = await bend(job({ bar: along([leg, 0, 300], [2 * leg, to, 300]) }));
    expect(bar("bar").bends[0]!.small === true).toBe(isSmall);
    const kept = findings.some((f) => f.code === "bend-kept-small");
    expect(kept).toBe(!isSmall && degrees < 0.5);
  });

  it("a shop that bends less true leaves out more", async () => {
    const text = (angle: number) =>
      job({ bar: along([60, 0, 300], [120, 1, 300]) }, { shop: { errors: { angle } } });
    expect(small((await bend(text(0.5))).bar("bar"))).toEqual([]);
    expect(small((await bend(text(1))).bar("bar"))).toEqual([[1, expect.closeTo(0.5, 3)]]);
  });

  it("a bar without a die has no corner to bend", async () => {
    const { die: _, ...bar } = along([400, 0.3, 300], [800, 0, 300]);
    const answer = await bend(job({ bar }));
    expect(answer.code).toBe(0);
    expect(small(answer.bar("bar"))).toEqual([[1, 0.3]]);
  });
});

describe("the zero line", () => {
  const bar = (rise: number, ...more: readonly (readonly number[])[]) => ({
    tube: "t",
    die: "d",
    path: [{ on: "post", along: 600 }, [600, 0, 300], [1200, rise, 300], ...more],
  });
  it.each([
    [2.9, "up"],
    [3.1, "bend 1"],
  ])("of a bar with one bend of %d°: %s", async (degrees, zeroLine) => {
    const at = await cope(job({ bar: bar(600 * Math.tan((degrees * Math.PI) / 180)) }));
    expect(at("bar", "A").zeroLine).toBe(zeroLine);
    expect(at("bar", "B").zeroLine).toBe(zeroLine);
  });
  it("comes over a bend of 2° from the next one, carried without twist", async () => {
    // End A, 2° to the left, 90° down: outside of the right angle is up; carried back over the 2° it is up still.
    const to = 600 * Math.tan((2 * Math.PI) / 180);
    const at = await cope(job({ bar: bar(to, [1200, to, -300]) }));
    expect(at("bar", "A")).toMatchObject({ zeroLine: "bend 2" });
    for (const [i, v] of at("bar", "A").zero.entries()) expect(v).toBeCloseTo([0, 0, 1][i]!, 9);
    expect(at("bar", "B").zeroLine).toBe("bend 2");
  });
  it("turned out of the 2° bend's plane it keeps square to the tube at the end", async () => {
    const to = 600 * Math.tan((2 * Math.PI) / 180);
    const at = await cope(job({ bar: bar(to, [1500, to + 500, 600]) }));
    const { zero, zeroLine } = at("bar", "A");
    expect(zeroLine).toBe("bend 2");
    expect(zero[0]).toBeCloseTo(0, 9);
    expect(Math.hypot(...zero)).toBeCloseTo(1, 6);
  });
});

describe("the same bends by the same numbers, all along", () => {
  it("on the trestles: readings and verdict name the bends as the card does", async () => {
    const files = { "job.json": job({ mix: MIX }) };
    const read = (what: string) => call(["trestles", "job.json", "--bar", "mix", "--read", what], files);
    expect((await read("angle-1:90")).err).toContain("there is no bend 1; the bar has bend 2 and 4");
    const { out } = await read("angle-4:92,end-to-end:1240");
    expect(out).toContain("bend 4 is ");
    expect(out).not.toMatch(/bend [13]\b/);
  });

  it("in the error budget: a turn comes before bend 4", async () => {
    const { out } = await call(["errors", "job.json", "--bar", "mix", "--json"], {
      "job.json": job({ mix: MIX }),
    });
    const says = (JSON.parse(out) as { bars: { steps: { says: string }[] }[] }).bars[0]!.steps.map(
      (s) => s.says,
    );
    expect(says.filter((s) => s.startsWith("check bend")).map((s) => s.slice(0, 12))).toHaveLength(2);
    expect(says.join("\n")).toMatch(/check bend 2:/);
    expect(says.join("\n")).toMatch(/check the turn before bend 4:/);
  });

  it("as built through the bends alone, or through every corner wanted", async () => {
    const corners = [[0, 0, 300], ...(MIX.path.slice(1) as number[][])];
    for (const path of [corners, corners.filter((_, i) => i !== 1 && i !== 3)]) {
      const lifted = path.map(([x, y, z]) => [x, y, z! + 2]);
      const { bar } = await bend(job({ mix: MIX }, { asBuilt: { mix: { path: lifted } } }));
      expect(real(bar("mix")).map((b) => b.n)).toEqual([2, 4]);
    }
  });

  it("a measured corner nearly in line still says what its places cost, though 1 sd makes a bend of it", async () => {
    const points = { p: { at: [400, 0.3, 300], sd: 4 }, q: { at: [800, 0, 300], sd: 2 } };
    const bar = { tube: "t", die: "d", path: [{ on: "post", along: 600 }, { point: "p" }, { point: "q" }] };
    const { out } = await call(["errors", "job.json", "--bar", "bar", "--json"], {
      "job.json": job({ bar }, { points }),
    });
    const { length } = (JSON.parse(out) as { bars: { length: number }[] }).bars[0]!;
    // The bar is the straight from the post to q: only q's 2 along it count.
    expect(length).toBeCloseTo(2, 3);
  });

  it("what lands on it, and what follows it, goes by the bar without the corner", async () => {
    const bars = {
      mix: MIX,
      on: { tube: "t", path: [{ on: "mix", along: 300 }, [300, -600, 300]] },
      beside: {
        tube: "t",
        die: "d",
        path: [
          [-100, 0, 400],
          [1000, 800, 950],
        ],
        follow: { bar: "mix", gap: 50, side: [0, 0, 1], from: 100, to: 1200 },
      },
    };
    const at = await cope(job(bars));
    expect(at("on", "A")).toMatchObject({ landing: [300, 0, 300] });
    const { bar } = await bend(job(bars));
    // Corners: where the run begins and ends, and beside the one bend between.
    expect(bar("beside").bends).toHaveLength(3);
  });
});
