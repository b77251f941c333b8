import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { run } from "./run.ts";

// biome-ignore lint/suspicious/noExplicitAny: a job is edited here as a person edits its file
type Job = any;
const demo = (): Job => JSON.parse(readFileSync("demo/sandling.json", "utf8"));

async function reuse(job: Job, bar: string) {
  const got = await run(["reuse", "job.json", "--bar", bar, "--json"], { "job.json": JSON.stringify(job) });
  return { ...got, matches: JSON.parse(got.out).matches as Job[] };
}

/** Posts so far apart, with a tie between each pair; the ties at some step each. */
const ties = (spans: readonly number[], progress: readonly (string | undefined)[]): Job => {
  const bars: Job = {};
  spans.forEach((span, i) => {
    const y = 300 * i;
    for (const [k, x] of [0, span].entries())
      bars[`post-${i}${k}`] = {
        tube: "t",
        path: [
          [x, y, 0],
          [x, y, 800],
        ],
      };
    bars[`tie-${i}`] = {
      label: `Tie ${i}`,
      tube: "t",
      path: [
        { on: `post-${i}0`, z: 400 },
        { on: `post-${i}1`, z: 400 },
      ],
      ...(progress[i] ? { progress: progress[i] } : {}),
    };
  });
  return {
    format: "tubewright job",
    version: 2,
    tubes: { t: { od: 40, wall: 2 }, u: { od: 38, wall: 2 } },
    shop: { trim: 10, gap: 1 },
    bars,
  };
};

test("a sawn stick: every bar that it is long enough for, what is left by hand, and none that is made already", async () => {
  const job = ties([600, 590, 612, 640, 595], ["sawn", undefined, undefined, undefined, "sawn"]);
  const { code, matches } = await reuse(job, "tie-0");
  expect(code).toBe(0);
  const found = matches.filter((m) => m.bar.startsWith("tie"));
  // 600 between centrelines with 10 at each end: 30 over for 590, 8 for 612, and 640 is 20 more than it has.
  expect(found.map((m) => [m.bar, m.verdict])).toEqual([
    ["tie-2", "good"],
    ["tie-1", "saw off"],
  ]);
  expect(found[0].ends.A + found[0].ends.B).toBeCloseTo(8, 6);
  expect(found[1].ends.A + found[1].ends.B).toBeCloseTo(30, 6);
  expect(matches.every((m) => m.reversed === false)).toBe(true);
});

test("a notched tie: another of its length as it is, a longer one not, a shorter one with a notch cut again", async () => {
  const job = ties([600, 600, 604, 590], ["notched"]);
  const { matches } = await reuse(job, "tie-0");
  const ofTies = matches.filter((m) => m.bar.startsWith("tie"));
  const [same] = ofTies.filter((m) => m.bar === "tie-1" && !m.reversed);
  expect(same).toMatchObject({ verdict: "good", short: 0, ease: [] });
  expect(same.gap.A).toBeLessThan(0.01);
  expect(ofTies.some((m) => m.bar === "tie-2")).toBe(false);
  const [shorter] = ofTies.filter((m) => m.bar === "tie-3");
  expect(shorter.verdict).toBe("notch again");
  expect(shorter.ends.A + shorter.ends.B).toBeCloseTo(10, 1);
});

test("a bent pillar could become its twin only where it is its own mirror image; mirrored it never is", async () => {
  const job = demo();
  job.rack = [];
  const flat = ["pillar-bar-left", "pillar-bar-right"] as const;
  job.bars[flat[0]].progress = "bent";
  const { matches } = await reuse(job, flat[0]);
  const twin = matches.filter((m) => m.bar === flat[1]);
  const turns = (
    await run(["bend", "job.json", "--bar", flat[0], "--json"], { "job.json": JSON.stringify(job) })
  ).out;
  const bends = JSON.parse(turns).bars[0].bends as Job[];
  const isHanded = bends.some((b) => Math.abs(Math.sin((b.rotation * Math.PI) / 180)) > 0.2);
  expect(twin.length > 0).toBe(!isHanded);
});

test("pieces of the rack, the shortest that serves first, by the tube and the place in its list", async () => {
  const job = ties([600], ["sawn"]);
  job.rack = [
    { tube: "u", pieces: [3000] },
    { tube: "t", pieces: [6000, 500, 640] },
  ];
  const { matches } = await reuse(job, "tie-0");
  // 600 between centrelines, square onto the posts: 2·√(20² − 18²) off it, so that 560-odd are net.
  expect(matches.filter((m) => m.piece).map((m) => m.piece)).toEqual(["t#3", "t#1"]);
  const [third] = matches.filter((m) => m.piece === "t#3");
  expect(third).toMatchObject({ reversed: false, gap: {}, ease: [] });
});

test("nothing fits: an empty list at exit 0; a bar only laid out is said to be; plain text beside JSON", async () => {
  const job = ties([600, 700], ["notched"]);
  const none = await reuse(job, "tie-0");
  expect(none.code).toBe(0);
  expect(none.matches.filter((m) => m.bar?.startsWith("tie"))).toEqual([]);
  const only = { ...job, bars: { ...job.bars } };
  for (const id of Object.keys(only.bars)) only.bars[id] = { ...only.bars[id], progress: "tacked" };
  only.bars["tie-0"] = { ...only.bars["tie-0"], progress: "sawn" };
  expect((await reuse(only, "tie-0")).matches).toEqual([]);
  const files = { "job.json": JSON.stringify(only) };
  const said = await run(["reuse", "job.json", "--bar", "tie-0"], files);
  expect([said.code, said.out]).toEqual([
    0,
    "Tie 0 (tie-0): No bar of the job and no piece on the rack fits.\n",
  ]);
  const laid = await run(["reuse", "job.json", "--bar", "tie-1", "--json"], {
    "job.json": JSON.stringify(job),
  });
  expect(laid.err).toBe("Tie 1 is only laid out: only pieces on the rack are listed.\n");
  expect(JSON.parse(laid.out)).toEqual({ matches: [] });
  expect((await run(["reuse", "job.json", "--bar", "tye-1"], files)).code).toBe(2);
  expect((await run(["reuse", "job.json"], files)).code).toBe(2);
  expect((await run(["help", "reuse"], {})).out).toContain("tubewright reuse JOB --bar ID [--json]");
});
