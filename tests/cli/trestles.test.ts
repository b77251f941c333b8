import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { run } from "./run.ts";

const DEMO = "demo/sandling.json";

describe("tubewright gaps", () => {
  const call = ["gaps", DEMO, "--bar", "harness-bar", "--end", "A", "--cut"];
  const read = "0:0.1,45:0.3,90:0.4,135:0.6,180:0.8,225:0.6,270:0.4,315:0.2";

  it("says the true angle and the next cut, for a person and as JSON", async () => {
    const { code, out } = await run([...call, "10", "--read", read]);
    expect(code).toBe(0);
    expect(out).toMatch(/° off square \(± \d\.\d°\)\. Clock /);
    expect(out).toMatch(/after that cut /);
    const json = await run([...call, "10", "--read", read, "--json"]);
    const answer = JSON.parse(json.out) as { offSquare: number; sd: { offSquare: number }; next: object };
    expect(answer.sd.offSquare).toBeGreaterThan(0);
    expect(answer.next).toHaveProperty("rollRound");
  });

  it.each([
    [
      ["gaps", DEMO, "--bar", "harness-bar", "--end", "C", "--cut", "10", "--read", read],
      2,
      "--end A or --end B",
    ],
    [["gaps", DEMO, "--bar", "harnes-bar", "--end", "A", "--cut", "10", "--read", read], 2, "harness-bar"],
    [[...call, "10", "--read", "45"], 2, "--read 45: give each gap as degrees:gap"],
    [[...call, "10", "--read", "45:-1"], 2, "a gap is 0 or more"],
    [[...call, "95", "--read", read], 2, "--cut 95: give a number from 0 to 85"],
    [
      [...call, "10", "--read", "0:1,90:2,180:1"],
      1,
      "read four gaps or more, spread all round: 3 places cannot tell",
    ],
    [["gaps", DEMO, "--bar", "main-hoop", "--end", "A", "--cut", "10", "--read", read], 1, "lands on no bar"],
  ] as const)("one clear line for %j", async (args, exit, says) => {
    const { code, out, err } = await run(args);
    expect(code).toBe(exit);
    expect(out).toBe("");
    expect(err.split("\n")[0]).toContain(says);
  });
});

describe("tubewright trestles", () => {
  const call = ["trestles", DEMO, "--bar", "pillar-bar-left", "--read"];

  it("says what a bent bar is and what to do with it", async () => {
    const readings = "end-to-end:1553,leg-B:671,off-flat-B:924,angle-2:43.2";
    const { code, out } = await run([...call, readings]);
    expect(code).toBe(0);
    expect(out).toMatch(/bend 2 is 1\.[01]° ± 0\.2° over/);
    expect(out).toMatch(/^Pillar bar, left \(pillar-bar-left\): good if end A landed /);
    const json = await run([...call, readings, "--json"]);
    const answer = JSON.parse(json.out) as { verdict: { kind: string }; asBent: { angles: number[] } };
    expect(answer.verdict.kind).toBe("moved");
    expect(out).toMatch(/cut end A: \d+\.\d° off square, clock of the heel .* \(the card has /);
    const { asBuilt, cuts } = JSON.parse(json.out) as {
      asBuilt: object;
      cuts: { end: string; offSquare: number }[];
    };
    const doc = { ...(JSON.parse(readFileSync(DEMO, "utf8")) as object), asBuilt };
    const anew = await run(["cope", "j", "--bar", "pillar-bar-left", "--json"], { j: JSON.stringify(doc) });
    const { copes } = JSON.parse(anew.out) as { copes: { end: string; saw?: { offSquare: number } }[] };
    expect(cuts.map((c) => c.end)).toEqual(["A"]);
    expect(copes.find((c) => c.end === "A")!.saw!.offSquare).toBeCloseTo(cuts[0]!.offSquare, 4);
    expect(answer.asBent.angles[1]).toBeGreaterThan(42.8);
  });

  it.each([
    ["angle-9:40", "there is no bend 9; the bar has 3"],
    ["angel-2:40", 'no reading is called "angel-2"'],
    ["angle-2", "give each as name:size"],
    ["end-to-end:12 foo", "--read end-to-end:12 foo"],
    ["leg-A:-4", "that is no size of a bent bar"],
  ])("one clear line for %s", async (readings, says) => {
    const { code, out, err } = await run([...call, readings]);
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err.split("\n")[0]).toContain(says);
  });
});

describe("a slip of unit warns and never refuses", () => {
  const bent = async (bar: string, read: string) => {
    const { code, out, err } = await run(["trestles", DEMO, "--bar", bar, "--read", read, "--json"]);
    return { code, err, answer: JSON.parse(out) as Judged };
  };
  /** A hoop of 45 × 2.5 that stands at x = 0. */
  const upright = JSON.stringify({
    format: "tubewright job",
    version: 2,
    tubes: { t: { od: 45, wall: 2.5 } },
    dies: { d: { od: 45, clr: 135 } },
    bars: {
      hoop: {
        tube: "t",
        die: "d",
        path: [
          [0, 600, 0],
          [0, 600, 900],
          [0, -600, 900],
          [0, -600, 0],
        ],
      },
    },
  });
  interface Judged {
    readonly verdict: { readonly kind: string };
    readonly asBent: { readonly turns: number[] };
    readonly sd: { readonly turns: number[] };
    readonly readings: readonly { readonly read: number; readonly leftOut?: string }[];
    readonly suspect: number | null;
    readonly findings: readonly { readonly code: string }[];
  }

  it("the reading is left out, that is said, and the others give their answer", async () => {
    const others = "leg-B:671,off-flat-B:924,angle-2:43.2";
    const right = await bent("pillar-bar-left", others);
    for (const [slipped, says] of [
      ["end-to-end:155.3", "typed in cm"],
      ["end-to-end:61.1", "typed in inches"],
      [`end-to-end:${1553 * 25.4}`, "in mm, typed as inches"],
    ]) {
      const { code, err, answer } = await bent("pillar-bar-left", `${slipped},${others}`);
      expect(code).toBe(0);
      expect(err).toMatch(
        /^warning: .*read end to end again: .* where about 1562.6 mm is expected\. Was it /,
      );
      expect(answer.readings[0]!.leftOut).toBe(says);
      expect(answer.asBent).toEqual(right.answer.asBent);
      expect(answer.verdict).toEqual(right.answer.verdict);
      expect(answer.findings.map((f) => f.code)).toEqual(["reading-unit"]);
    }
  });

  it("where nothing is left there is no verdict", async () => {
    const { code, answer } = await bent("pillar-bar-left", "end-to-end:61.1");
    expect(code).toBe(0);
    expect(answer.verdict.kind).toBe("unread");
    const { out } = await run(["trestles", DEMO, "--bar", "pillar-bar-left", "--read", "end-to-end:61.1"]);
    expect(out).toContain("no reading is left to judge it by");
  });

  it.each([-38, -1.5, -0.06, 0, 0.4, 1.5, 3, 38])(
    "silent of a hoop that lies flat: %d off the plane",
    async (off) => {
      const { code, err, answer } = await bent("main-hoop", `off-flat-B:${off}`);
      expect([code, err, answer.readings[0]!.leftOut]).toEqual([0, "", undefined]);
    },
  );

  it.each([-2, -0.3, 0, 0.1, 2])(
    "a hoop twisted by %d° at its second bend is told so by one off-flat reading",
    async (twist) => {
      // a U of 1200 × 900 to its corners: its leg, 900 from the corner, turns out of the plane about the crown (trade-checks C18)
      const at = Math.abs((twist * Math.PI) / 180);
      const off = 900 * Math.sin(at) + 22.5 * (1 - Math.cos(at));
      const read = `off-flat-B:${twist < 0 ? off : -off}`;
      const { code, err, out } = await run(["trestles", "j", "--bar", "hoop", "--read", read, "--json"], {
        j: upright,
      });
      expect([code, err]).toEqual([0, ""]);
      const { asBent, sd } = JSON.parse(out) as Judged;
      // believed a little less than read: by (1 mm of tape over 900 / 1° of habit)²
      expect(Math.abs(Math.abs(asBent.turns[1]!) - Math.abs(twist))).toBeLessThan(
        0.006 * Math.abs(twist) + 0.002,
      );
      expect(sd.turns[1]!).toBeLessThan(0.1);
    },
  );

  it("silent of readings on a hoop that stands at x = 0, whose lean is so told", async () => {
    for (const [by, slack] of [
      [6, 2],
      [-12, 4],
      [0, 0.1],
    ] as const) {
      // fore of three places on the hoop, as a lean about its feet of so much at the top reads there
      const at = (height: number): number => (by * height) / 900;
      const read = `fore:hoop@450:${at(450)},fore:hoop@800:${at(790)},fore:hoop@2100:${at(790)}`;
      const { code, err, out } = await run(["tacked", "j", "--bar", "hoop", "--read", read, "--json"], {
        j: upright,
      });
      expect([code, err]).toEqual([0, ""]);
      const { asBuilt } = JSON.parse(out) as { asBuilt: { hoop: { path: number[][] } } };
      expect(Math.abs(asBuilt.hoop.path[1]![0]! - by)).toBeLessThanOrEqual(slack);
    }
  });

  it("a tape on a tacked bar, a height typed in inches, is left out and the rest answers", async () => {
    const right = "fore:main-hoop@1200:-69.8,fore:main-hoop@500:-29";
    const call = (read: string) => run(["tacked", DEMO, "--bar", "main-hoop", "--read", read, "--json"]);
    const clean = JSON.parse((await call(right)).out) as { moved: number[] };
    const slip = await call(`height:main-hoop@1500:${(1105 / 25.4).toFixed(1)},${right}`);
    expect(slip.code).toBe(0);
    expect(slip.err).toContain("Was it typed in inches? It is left out");
    expect((JSON.parse(slip.out) as { moved: number[] }).moved).toEqual(clean.moved);
  });

  it("a gap in another unit than the rest is left out of the joint", async () => {
    const gaps = ["0:0.1", "45:0.3", "90:0.4", "135:0.6", "180:0.8", "225:0.6", "270:0.4", "315:0.2"];
    const call = (read: readonly string[]) =>
      run([
        "gaps",
        DEMO,
        "--bar",
        "harness-bar",
        "--end",
        "A",
        "--cut",
        "10",
        "--read",
        read.join(),
        "--json",
      ]);
    const clean = JSON.parse((await call(gaps.filter((_, i) => i !== 3))).out) as { offSquare: number };
    for (const slip of [0.6 * 25.4, 76.2, 600]) {
      const { code, out } = await call(gaps.with(3, `135:${slip}`));
      const said = JSON.parse(out) as { offSquare: number; suspect: number; leftOut: boolean };
      expect([code, said.suspect, said.leftOut]).toEqual([0, 3, true]);
      expect(said.offSquare).toBeCloseTo(clean.offSquare, 4);
    }
  });
});

describe("tubewright errors", () => {
  it("says what a bar may be off by and which step to check", async () => {
    const { code, out } = await run(["errors", DEMO, "--bar", "pillar-bar-left"]);
    expect(code).toBe(0);
    expect(out).toMatch(/the foot: 95 % within 4\d\.\d mm/);
    expect(out).toContain("check the turn before bend 2: 1° there is 17.0 mm at the foot");
    const json = await run(["errors", DEMO, "--json", "--samples", "200"]);
    const { bars } = JSON.parse(json.out) as { bars: { id: string; trim: { A: number } }[] };
    expect(bars).toHaveLength(36);
  });

  it("places with an error pass it on", async () => {
    const job = JSON.stringify({
      format: "tubewright job",
      version: 2,
      tubes: { t: { od: 40, wall: 2 } },
      points: { p: { at: [0, 0, 0], sd: 3 } },
      bars: { a: { tube: "t", path: [{ point: "p" }, [900, 0, 0]] } },
    });
    const { out } = await run(["errors", "j", "--json"], { j: job });
    const { bars } = JSON.parse(out) as { bars: { length: number; most: object; landings: object }[] };
    expect(bars[0]).toMatchObject({
      length: 3,
      most: { name: "p x" },
      landings: { A: [3, 3, 3], B: [0, 0, 0] },
    });
  });

  it("one clear line for what is wrong", async () => {
    const { code, err } = await run(["errors", DEMO, "--confidence", "100"]);
    expect(code).toBe(2);
    expect(err.split("\n")[0]).toBe("--confidence 100: give a number from 50 to 99.9");
  });
});

describe("tubewright tacked", () => {
  const call = ["tacked", DEMO, "--bar", "main-hoop", "--read"];

  it("says how it stands and which cards that changes, and gives asBuilt for the job", async () => {
    const readings = "fore:main-hoop@1200:-69.8,fore:main-hoop@1900:-69.8,fore:main-hoop@500:-29";
    const { code, out } = await run([...call, readings]);
    expect(code).toBe(0);
    expect(out).toMatch(/^main-hoop: .* is \d\.\d mm ± \d\.\d mm from its place$/m);
    expect(out).toContain("pillar-bar-left: ");
    const json = await run([...call, readings, "--json"]);
    const { asBuilt, stale } = JSON.parse(json.out) as { asBuilt: Record<string, object>; stale: object[] };
    expect(stale.length).toBeGreaterThan(0);
    const doc = { ...(JSON.parse(readFileSync(DEMO, "utf8")) as object), asBuilt };
    expect((await run(["bend", "j", "--json"], { j: JSON.stringify(doc) })).code).toBe(0);
  });

  it("a tape to another tacked bar moves both, when both are named", async () => {
    const cross = "tape-centre:main-hoop@1200:header-bar@300:1100";
    const refused = await run(["tacked", DEMO, "--bar", "main-hoop", "--read", cross]);
    expect(refused.code).toBe(2);
    expect(refused.err).toContain("Name that with another --bar if it is tacked too");
    const two = ["tacked", DEMO, "--bar", "main-hoop", "--bar", "header-bar", "--read"];
    const far = await run([...two, cross]);
    expect(far.out).toContain("read number 1 once more");
    const computed = JSON.parse((await run([...two, cross, "--json"])).out) as {
      readings: { computed: number }[];
      bars: { id: string; moved: number[] }[];
      asBuilt: object;
    };
    expect(computed.bars.map((b) => b.id)).toEqual(["main-hoop", "header-bar"]);
    for (const b of computed.bars) expect(Math.max(...b.moved)).toBeGreaterThan(1);
    expect(Object.keys(computed.asBuilt)).toEqual(["main-hoop", "header-bar"]);
  });

  it.each([
    ["heigth:main-hoop@400:1", "there are tape, tape-inside"],
    ["height:400", "give height:SPOT:size"],
    ["height:main-hoop@99999:1000", "main-hoop is "],
    ["height:nowhere:1000", 'no known point is called "nowhere"'],
    ["height:harness-bar@40:1000", "a spot is on main-hoop or is a point"],
  ])("one clear line for %s", async (readings, says) => {
    const { code, out, err } = await run([...call, readings]);
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err.split("\n")[0]).toContain(says);
  });
});
