import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { run } from "./run.ts";

const DEMO = "demo/sandling.json";
const trial = readFileSync("tests/corpus/trial-frame.json", "utf8");
type Doc = Record<string, Record<string, Record<string, unknown>>>;
const edited = (edit: (doc: Doc) => void): string => {
  const doc = JSON.parse(trial) as Doc;
  edit(doc);
  return JSON.stringify(doc);
};
interface BendJson {
  bars: {
    id: string;
    length: number;
    blank: number;
    lastStraight: number;
    bends: Record<string, number>[];
  }[];
}
interface CopeJson {
  copes: {
    bar: string;
    end: string;
    onto: string[];
    outer: { phi: number; back: number | null }[];
    misses: number[][];
    [key: string]: unknown;
  }[];
}

describe("tubewright bend", () => {
  it("gives the keys and values that job-file.md promises", async () => {
    const { code, out } = await run(["bend", "j", "--bar", "hoop", "--json"], { j: trial });
    expect(code).toBe(0);
    const [hoop] = (JSON.parse(out) as BendJson).bars;
    expect(hoop).toMatchObject({ id: "hoop", length: 2884.115008, blank: 2884.115008, lastStraight: 765 });
    expect(hoop!.bends[0]).toMatchObject({
      n: 1,
      angle: 90,
      rotation: 0,
      start: 765,
      mark: 765,
      clr: 135,
      straightBefore: 765,
    });
    expect(hoop!.bends[1]!.markB).toBe(765);
  });
  it("prints for a person: mark, angle to set, turn in words, checks; never a bare sign", async () => {
    const { code, out } = await run(["bend", DEMO, "--bar", "pillar-bar-left"]);
    expect(code).toBe(0);
    expect(out).toContain(
      "turn the tube 77.5° clockwise (27.0 mm round the tube): now bend 1 points 77.5° above level, on your left",
    );
    expect(out).toContain("bend 2: mark 713.3 mm, set 44.8° to get 42.0°");
    expect(out).not.toMatch(/turn.*-\d/);
  });
  it("offers both marks from their own ends for a bar of two bends", async () => {
    const { out } = await run(["bend", "j", "--bar", "hoop"], { j: trial });
    expect(out).toContain("Turn the tube round for the second bend");
  });
  it("a Z prints +180, never −180", async () => {
    const z = edited((d) => {
      d.bars!.z = {
        tube: "main",
        die: "d45",
        path: [
          [0, 0, 0],
          [500, 0, 0],
          [500, 500, 0],
          [1000, 500, 0],
        ],
      };
    });
    const { out } = await run(["bend", "j", "--bar", "z", "--json"], { j: z });
    expect((JSON.parse(out) as BendJson).bars[0]!.bends.map((b) => b.rotation)).toEqual([0, 180]);
  });
  it("answers what resolves, names what does not, and exits 1", async () => {
    const bad = edited((d) => {
      d.bars!.cross = { tube: "light", path: [{ on: "hoop", z: 620 }, [0, 0, 0]] };
    });
    const { code, out, err } = await run(["bend", "j", "--json"], { j: bad });
    expect(code).toBe(1);
    expect((JSON.parse(out) as BendJson).bars.map((b) => b.id)).toEqual(["hoop", "stay-l", "stay-r"]);
    expect(err).toContain(
      "error: bars.cross.path[0]: choose the crossing with near: hoop crosses z = 620.0 mm at 2 places",
    );
  });
});

describe("tubewright cope", () => {
  it("gives the keys that job-file.md promises, plates and square ends too", async () => {
    const { code, out } = await run(["cope", "j", "--every", "90", "--json"], { j: trial });
    expect(code).toBe(0);
    const { copes } = JSON.parse(out) as CopeJson;
    expect(copes.map((c) => `${c.bar} ${c.end} ${c.onto}`)).toEqual([
      "hoop A foot-l",
      "hoop B foot-r",
      "cross A hoop",
      "cross B hoop",
      "stay-l A hoop",
      "stay-l B ",
      "stay-r A hoop",
      "stay-r B ",
    ]);
    expect(copes[2]).toMatchObject({
      landing: [0, 600, 620],
      out: [0, 1, 0],
      zero: [0, 0, 1],
      zeroLine: "up",
      misses: [],
    });
    expect(copes[2]!.outer).toEqual([
      { phi: 0, back: 22.5 },
      { phi: 90, back: 12.051971 },
      { phi: 180, back: 22.5 },
      { phi: 270, back: 12.051971 },
    ]);
    expect(out).not.toContain("-0,");
  });
  it("lines between whole degrees are computed, not looked up", async () => {
    const { out } = await run([
      "cope",
      DEMO,
      "--bar",
      "pillar-bar-left",
      "--end",
      "A",
      "--every",
      "22.5",
      "--json",
    ]);
    const [end] = (JSON.parse(out) as CopeJson).copes;
    const whole = JSON.parse(
      (await run(["cope", DEMO, "--bar", "pillar-bar-left", "--end", "A", "--every", "1", "--json"])).out,
    ) as CopeJson;
    const at = (phi: number): number => whole.copes[0]!.outer[phi]!.back!;
    expect(end!.outer.length).toBe(16);
    const between = end!.outer[1]!.back!;
    expect(between).toBeGreaterThan(Math.min(at(22), at(23)));
    expect(between).toBeLessThan(Math.max(at(22), at(23)));
  });
  it("null where a line misses, and the arc beside it", async () => {
    const wide = edited((d) => {
      d.tubes!.wide = { od: 60, wall: 2 };
      d.bars!.cross = { tube: "wide", path: [{ on: "hoop", z: 620, near: "left" }, [300, 0, 620]] };
    });
    const { code, out } = await run(["cope", "j", "--bar", "cross", "--every", "15", "--json"], { j: wide });
    const [end] = (JSON.parse(out) as CopeJson).copes;
    expect(code).toBe(0);
    expect(end!.misses.length).toBeGreaterThan(0);
    expect((end as unknown as { saw: { exact: boolean } }).saw.exact).toBe(false);
    const said = (await run(["cope", "j", "--bar", "cross", "--steps", "--every", "90"], { j: wide })).out;
    expect(said).toContain("no gap where the rim meets the host; it stays open at ");
    expect(said).toContain("then it seats where the rim meets the host");
    expect(said).not.toContain("exact");
    for (const { phi, back } of end!.outer) {
      if (back === null) expect(end!.misses.some(([a, b]) => a! <= phi && phi <= b!)).toBe(true);
    }
  });
  it("a step stands off by its misfit and its hole's shift, its gap square to the host (40 on 40, 38° for 48°)", async () => {
    const job = "tests/corpus/steps-standoff.json";
    const call = ["cope", job, "--bar", "bar", "--end", "A", "--range", "38..48", "--steps"];
    const { copes } = JSON.parse((await run([...call, "--json"])).out) as {
      copes: {
        steps: { cuts: { outboard: number; shows: { standsOff: number; gap: number; gapAt: number } }[] };
      }[];
    };
    const [first] = copes[0]!.steps.cuts;
    expect(first!.outboard).toBeCloseTo(2.077, 3);
    expect(first!.shows.standsOff).toBeCloseTo(13.173, 3);
    expect(first!.shows.gap).toBeCloseTo(13.173 * Math.cos((48 * Math.PI) / 180), 2);
    expect(first!.shows.gapAt).toBe(180);
    const { out } = await run(call);
    expect(out).toContain(
      "cut 1: 38.0° off square, hole centre 2.1 mm outboard of the final one; at the true angle it stays 13.2 mm short of its seat; gap 8.8 mm at the toe, square to the host",
    );
  });
  it("--steps plans the cuts; a range says what to leave; near square it says that the rule does not hold", async () => {
    const { out } = await run([
      "cope",
      DEMO,
      "--bar",
      "roof-cross-through-bar",
      "--end",
      "B",
      "--range",
      "38..46",
    ]);
    expect(out).toContain("cut 1: 38.0° off square");
    expect(out).toContain("start shallow and deepen");
    const square = await run(["cope", DEMO, "--bar", "dash-bar", "--end", "A", "--steps"]);
    expect(square.out).toContain("start at the likeliest angle");
  });
});

describe("tubewright die", () => {
  it("from two test bends: the springback line and the radius of trade-checks D7", async () => {
    // A = B = 330 to the centreline's corner, stick 600, 90°: R 139.79; 30 → 27.6 and 90 → 86.1: k .975, c −1.65.
    const leg = 330 + (45 / 2) * Math.tan(Math.PI / 4);
    const one = await run(["die", "j", "--die", "d45", "--test", `93,90,${leg},${leg},600`, "--json"], {
      j: trial,
    });
    const [card] = (JSON.parse(one.out) as { dies: { clr: { value: number } }[] }).dies;
    expect(card!.clr.value).toBeCloseTo(139.79, 2);
    const two = await run(["die", "j", "--die", "d45", "--test", "30,27.6", "--test", "90,86.1", "--json"], {
      j: trial,
    });
    const [line] = (
      JSON.parse(two.out) as { dies: { springback: { k: { value: number }; c: { value: number } } }[] }
    ).dies;
    expect(line!.springback.k.value).toBeCloseTo(0.975, 6);
    expect(line!.springback.c.value).toBeCloseTo(-1.65, 6);
  });
  it.each([
    [["--test", "30"], "--test 30: give set,got or set,got,leg A,leg B,stick"],
    [["--test", "x,27"], "--test x: give a number from 0 to 360"],
    [["--test", "30,27.6"], "name the die of the tests with --die (d45, d38)"],
    [["--die", "d54"], '--die d54: the job has no die of that name — did you mean "d45"?'],
  ])("%j is refused in one line", async (args, line) => {
    const { code, err } = await run(["die", "j", ...args], { j: trial });
    expect(code).toBe(2);
    expect(err.split("\n")[0]).toBe(line);
  });
});

describe("tubewright check and schema", () => {
  it("lists by severity and says who decides", async () => {
    const { code, out } = await run(["check", "j"], { j: trial });
    expect(code).toBe(0);
    expect(out).toContain("warning (1)\n  dies.d45: the die is not calibrated");
    expect(out).toContain("The rule book in force");
  });
  it("prints the format as JSON Schema", async () => {
    const { code, out } = await run(["schema"]);
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ $schema: "https://json-schema.org/draft/2020-12/schema" });
  });
});

describe("a wrong call or a file that does not pass: exit 2, one line that names the place", () => {
  it.each<[readonly string[], string]>([
    [[], "tubewright: from a job file to marks, cuts and cards"],
    [["bned"], 'there is no command "bned" — did you mean "bend"?'],
    [["bend"], "name a job file"],
    [["bend", "a", "b"], 'one job file at a time; "b" is one too many'],
    [["bend", "nowhere.json"], "nowhere.json: there is no such file"],
    [["bend", "demo"], "demo: that is a folder; name the job file in it"],
    [
      ["bend", DEMO, "--bar", "main-hop"],
      '--bar main-hop: the job has no bar of that name — did you mean "main-hoop"?',
    ],
    [["bend", DEMO, "--colour"], "there is no option '--colour'"],
    [["cope", DEMO, "--every", "0"], "--every 0: give a number from 0.01 to 180"],
    [["cope", DEMO, "--every", "five"], "--every five: give a number from 0.01 to 180"],
    [["cope", DEMO, "--end", "C"], "--end C: a bar has an end A and an end B"],
    [["cope", DEMO, "--range", "44"], "--range 44: give two angles off square, like 44..52"],
  ])("%j", async (args, line) => {
    const { code, out, err } = await run(args);
    expect(code).toBe(2);
    expect((err || out).split("\n")[0]).toBe(line);
    expect(err).not.toMatch(/\n\s+at /);
  });

  it("ends coped to each other make a circle", async () => {
    const crowd = edited((d) => {
      d.bars!.a = { tube: "light", path: [{ on: "hoop", along: 500, also: ["b"] }, [-600, 500, 500]] };
      d.bars!.b = { tube: "light", path: [{ on: "hoop", along: 520, also: ["a"] }, [-600, 300, 800]] };
    });
    const { code, out, err } = await run(["cope", "j", "--json"], { j: crowd });
    expect([code, out]).toEqual([2, ""]);
    expect(err).toBe("bars.a: take one bar out of also: end A is coped to b, whose end A is coped to it\n");
  });

  it("an output folder that cannot be: nothing is half written", async () => {
    const folder = mkdtempSync(join(tmpdir(), "tubewright-"));
    writeFileSync(join(folder, "taken"), "a file");
    const { code, err } = await run(["cards", DEMO, "--bar", "dash-bar", "--out", join(folder, "taken")]);
    expect(code).toBe(2);
    expect(err.split("\n").length).toBe(2);
    expect(readdirSync(folder)).toEqual(["taken"]);
    rmSync(folder, { recursive: true });
  });
});
