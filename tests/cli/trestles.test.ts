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
    expect(out).toMatch(/° off square \(± \d\.\d°\); /);
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
    [[...call, "10", "--read", "45:-1"], 2, "a gap is from 0 to 60.0 mm"],
    [[...call, "95", "--read", read], 2, "--cut 95: give a number from 0 to 85"],
    [[...call, "10", "--read", "0:1,90:2,180:1"], 1, "gaps at 3 places cannot tell"],
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
    expect(out).toMatch(/cut end A at \d+\.\d° off square, heel at .* \(the card has /);
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
    ["leg-A:-4", "no size of a bent bar"],
    ["end-to-end:155.3", "the bar as wanted has about 1553 mm there; was it typed in cm?"],
    ["end-to-end:61.1", "was it typed in inches?"],
  ])("one clear line for %s", async (readings, says) => {
    const { code, out, err } = await run([...call, readings]);
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err.split("\n")[0]).toContain(says);
  });
});

describe("tubewright errors", () => {
  it("says what a bar may be off by and which step to check", async () => {
    const { code, out } = await run(["errors", DEMO, "--bar", "pillar-bar-left"]);
    expect(code).toBe(0);
    expect(out).toMatch(/the foot within 4\d\.\d mm in 95 of 100/);
    expect(out).toContain("check turn 1 (before bend 2): 1° there is 17.0 mm at the foot");
    const json = await run(["errors", DEMO, "--json", "--samples", "200"]);
    const { bars } = JSON.parse(json.out) as { bars: { id: string; trim: { A: number } }[] };
    expect(bars).toHaveLength(36);
  });

  it("places with an error pass it on", async () => {
    const job = JSON.stringify({
      format: "tubewright job",
      version: 1,
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
    expect(out).toMatch(/^main-hoop: .* is \d\.\d mm ± \d\.\d mm from where it was to be$/m);
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
    expect(refused.err).toContain("if that is tacked too, name it with another --bar");
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
    ["height:main-hoop@1500:110.5", "it should read about 1105 mm there; was it typed in cm?"],
    ["height:nowhere:1000", 'no known point is called "nowhere"'],
    ["height:harness-bar@40:1000", "a spot lies on main-hoop or is a point"],
  ])("one clear line for %s", async (readings, says) => {
    const { code, out, err } = await run([...call, readings]);
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err.split("\n")[0]).toContain(says);
  });
});
