/**
 * A card is possible or it is not printed: figures that nobody can saw, mark, set or measure are errors, exit 1, without
 * a card, and the other bars are answered.
 */
import { existsSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { sessionWith } from "../../src/app/model/compute/session.ts";
import { bendPlan, impossible } from "../../src/core/bend/index.ts";
import { readJob } from "../../src/core/job/index.ts";
import { run as call } from "../cli/run.ts";
import { run as program } from "../programs.ts";
import { barThrough } from "../support/bend.ts";

const job = (bar: object, die: object = {}): string =>
  JSON.stringify({
    format: "tubewright job",
    version: 2,
    name: "Impossible",
    tubes: { t: { od: 40, wall: 2 }, wide: { od: 60, wall: 3 } },
    dies: { d: { od: 40, clr: 120, ...die } },
    bars: {
      post: {
        tube: "wide",
        path: [
          [0, 0, -300],
          [0, 0, 900],
        ],
      },
      bar: { tube: "t", die: "d", ...bar },
    },
  });

/** First leg 400 to the corner, so 280 of straight. */
const LEG = { path: [{ on: "post", along: 600 }, [400, 0, 300], [400, 500, 300]] };

/**
 * Long point of a 40 tube bent to 120 that begins its bend 10 from the axis of a post of 60: on the outside of the bend a
 * wall line runs at 140 about (10, 120), and is at 30 from the post where 33200 + 2800 sin a = 33600 cos a.
 */
const BACK = 10 + 120 * root((a) => 33200 + 2800 * Math.sin(a) - 33600 * Math.cos(a));

function root(f: (a: number) => number): number {
  let [low, high] = [0, 0.5];
  while (high - low > 1e-12) {
    const middle = (low + high) / 2;
    if (f(middle) < 0) low = middle;
    else high = middle;
  }
  return low;
}

const shortLeg = (corner: number) => [{ on: "post", along: 600 }, [corner, 0, 300], [corner, 500, 300]];

async function bend(text: string) {
  const { code, out } = await call(["bend", "job.json", "--json"], { "job.json": text });
  const { bars, findings } = JSON.parse(out) as {
    bars: { id: string; sawn: number; bends: Record<string, number>[]; checks: unknown }[];
    findings: { code: string; severity: string; bar?: string; says: string }[];
  };
  const errors = findings.filter((f) => f.severity === "error");
  return { code, ids: bars.map((b) => b.id), bar: bars.find((b) => b.id === "bar"), findings, errors };
}

describe("a figure that cannot be is an error and no card", () => {
  it.each([
    ["a mark far past the other end", LEG, { mark: 5000 }, "mark-off-tube"],
    ["a mark before the end fed first", LEG, { mark: -900 }, "mark-off-tube"],
    ["a bend that begins in the cope", { path: shortLeg(130) }, {}, "bend-off-tube"],
    ["the same, its mark on the tube", { path: shortLeg(130) }, { mark: 30 }, "bend-off-tube"],
    ["a bend that ends in the cope", { path: shortLeg(130).reverse() }, {}, "bend-off-tube"],
    ["a setting beyond half a turn", LEG, { springback: { k: 0.4, c: 0 } }, "set-impossible"],
    ["a setting of less than nothing", LEG, { springback: { k: 0.9, c: 90 } }, "set-impossible"],
  ])("%s", async (_, bar, die, code) => {
    const text = job(bar, die);
    const answer = await bend(text);
    expect(answer.code).toBe(1);
    expect(answer.ids).toEqual(["post"]);
    expect(answer.errors).toMatchObject([{ code, bar: "bar" }]);
    // no warning beside it speaks of less than nothing
    for (const f of answer.findings) expect(f.says).not.toMatch(/[^\d°]-\d/);
    const out = mkdtempSync(join(tmpdir(), "tubewright-impossible-"));
    const cards = await call(["cards", "job.json", "--out", out], { "job.json": text });
    expect(cards.code).toBe(1);
    expect(cards.err).toContain("error: bars.bar: ");
    expect(existsSync(join(out, "bars", "bar.pdf"))).toBe(false);
    expect(existsSync(join(out, "bars", "post.pdf"))).toBe(true);
    const said = program("pdftotext", join(out, "overview.pdf"), "-").toString().replace(/\s+/g, " ");
    expect(said).toContain(answer.errors[0]!.says);
    const check = await call(["check", "job.json"], { "job.json": text });
    expect(check.code).toBe(1);
    expect(check.out).toContain(answer.errors[0]!.says);
  });

  it("says by how much: the bend reaches into the tube that the cope takes", async () => {
    // 130 to the corner less a tangent of 120 leaves 10 of straight; the cope's long point takes more.
    const { errors } = await bend(job({ path: shortLeg(130) }));
    expect(errors[0]!.says).toContain(`leave ${(BACK - 10).toFixed(1)} mm more allowance at end A`);
  });

  it("with so much left over there is a card again", async () => {
    const { code, bar } = await bend(job({ path: shortLeg(130), trim: { A: 40 } }));
    expect(code).toBe(0);
    expect(bar!.bends[0]!.mark).toBeCloseTo(40 + 10 - BACK, 3);
  });

  it("a die that is set beyond half a turn may say so", async () => {
    const { code, bar } = await bend(job(LEG, { springback: { k: 0.4, c: 0 }, maxAngle: 250 }));
    expect(code).toBe(0);
    expect(bar!.bends[0]!.set).toBeCloseTo(225, 6);
  });

  it("two cuts that leave nothing of the bar", () => {
    const bar = barThrough([
      [0, 0, 0],
      [40, 0, 0],
    ]);
    const codes = (back: number) => {
      const leastBack = { A: back, B: back };
      return impossible(bar, bendPlan(bar, leastBack), leastBack).map((f) => f.code);
    };
    expect(codes(19)).toEqual([]);
    expect(codes(20)).toEqual(["blank-nothing"]);
  });
});

describe("a mark off the tube from the end that is not fed first", () => {
  it("is not given, in JSON and in the table; the card goes from the other end", async () => {
    // 280 of straight at A and a mark 300 before the bend: from A it is off the tube, from B it is at 80.
    const text = job({ ...LEG, fromEnd: "B" }, { mark: -300 });
    const { code, bar } = await bend(text);
    expect(code).toBe(0);
    expect("mark" in bar!.bends[0]!).toBe(false);
    expect(bar!.bends[0]!.markB).toBeCloseTo(500 - 120 - 300, 6);
    const fed = await bend(job(LEG, { mark: -300 }));
    expect(fed.code).toBe(1);
    expect(fed.errors[0]!.says).toContain("feed end B first");
  });
});

describe("random dies and legs", () => {
  it("every mark printed is on the tube, and a bar is refused just when the mark from its own end is not (seed 9)", async () => {
    let state = 9;
    const random = (): number => {
      state = (state * 1103515245 + 12345) % 2147483648;
      return state / 2147483648;
    };
    let refused = 0;
    for (let k = 0; k < 60; k++) {
      // A right angle of radius 120: tangents 120, arc 60π. Square ends, so nothing is taken off.
      const [a, b] = [121 + 300 * random(), 121 + 300 * random()];
      const [mark, factor, fromA] = [600 * random() - 300, 0.9 + 0.2 * random(), random() < 0.5];
      const bar = {
        fromEnd: fromA ? "A" : "B",
        path: [
          [0, 0, 0],
          [a, 0, 0],
          [a, b, 0],
        ],
      };
      const answer = await bend(job(bar, { mark, arcFactor: factor }));
      const sawn = a - 120 + (b - 120) + factor * 60 * Math.PI;
      const own = (fromA ? a : b) - 120 + mark;
      const possible = own >= 0 && own <= sawn;
      expect(answer.bar !== undefined).toBe(possible);
      if (!possible) refused++;
      for (const { mark: m, markB } of answer.bar?.bends ?? [])
        for (const at of [m, markB])
          if (at !== undefined) expect(at >= 0 && at <= answer.bar!.sawn).toBe(true);
    }
    expect(refused).toBeGreaterThan(5);
    expect(refused).toBeLessThan(55);
  });
});

describe("the page", () => {
  it("has the bar without a card, with the sentence that stands in place of its steps", async () => {
    const read = readJob(job(LEG, { mark: 5000 }));
    if (!read.ok) throw new Error("the job does not pass");
    const session = sessionWith(() => Promise.reject(new Error("no card is drawn here")));
    const answer = await session.compute({ revision: 1, job: read.job });
    if (!answer.ok) throw new Error("no answer");
    expect(answer.order).toEqual(["post"]);
    expect(answer.without).toMatchObject([{ id: "bar", findings: [{ code: "mark-off-tube" }] }]);
    expect(await session.card({ card: "bender", bar: "bar", paper: "A4" })).toBeUndefined();
    expect(await session.card({ card: "notcher", bar: "bar", paper: "A4" })).toBeUndefined();
  });
});
