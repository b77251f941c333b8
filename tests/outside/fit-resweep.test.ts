import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readJob } from "../../src/core/job/index.ts";
import { planJob } from "../../src/core/plan/index.ts";
import { run } from "../cli/run.ts";
import { crowded } from "../support/crowded.ts";
import { jobOf } from "../support/fit.ts";
import { outsideBy, resweep, type Way } from "../support/resweep.ts";

/**
 * What `tubewright fit --json` answers, followed anew by code of its own that shares nothing with the fit room. A few
 * bars; all of both cars by `npm run bench resweep`.
 */
interface Answer {
  readonly order: readonly string[];
  readonly bars: readonly (Way & {
    readonly goesIn: string;
    readonly spring: number;
    readonly touches: { readonly by: number } | null;
    readonly clearance: number | null;
    readonly why: string;
  })[];
}

async function holds(text: string, answer: Answer): Promise<void> {
  const read = readJob(text);
  if (!read.ok) throw new Error("the job does not pass");
  const plan = planJob(read.job);
  for (const b of answer.bars) {
    if (b.goesIn === "no") {
      expect(b.way, b.bar).toEqual([]);
      continue;
    }
    const met = resweep(plan, read.job, b);
    expect(met.overlap, `${b.bar} into ${met.with}`).toBeLessThan((b.touches?.by ?? b.spring) + 0.01);
    if (b.clearance !== null) expect(met.clearance, b.bar).toBeGreaterThan(b.clearance * 0.98 - 0.3);
    if (b.after.length > 0) {
      expect(outsideBy(plan, b), b.bar).toBeGreaterThan(plan.byId.get(b.bar)!.bar.centreline.length);
    }
    expect(b.way[b.way.length - 1], b.bar).toEqual({ at: [0, 0, 0], turn: [0, 0, 0, 1] });
  }
}

const asked = async (document: object, ...args: string[]): Promise<Answer> => {
  const { out, code } = await run(["fit", "job.json", "--json", ...args], {
    "job.json": JSON.stringify(document),
  });
  expect(code).toBe(0);
  return JSON.parse(out) as Answer;
};

const demo = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as { bars: object };
const order = Object.keys(demo.bars).join(",");

describe("the demo car, in the job's own order", () => {
  test.each(["harness-bar", "pillar-bar-right", "pillar-follower-left", "door-bar-through-left"])(
    "%s",
    async (id) => {
      const answer = await asked(demo, "--order", order, "--bar", id);
      expect(answer.bars.map((b) => b.goesIn)).not.toContain("no");
      await holds(JSON.stringify(demo), answer);
    },
  );
});

test("a window whose bar must be sprung in", async () => {
  const narrow = jobOf({
    left: [
      [0, 0, -300],
      [0, 0, 300],
    ],
    right: [
      [0, 400, -300],
      [0, 400, 300],
    ],
    top: [
      { on: "left", z: 260 },
      { on: "right", z: 260 },
    ],
    low: [
      { on: "left", z: -260 },
      { on: "right", z: -260 },
    ],
    bar: [
      { on: "left", z: 0 },
      { on: "right", z: 0 },
    ],
  });
  const answer = await asked(narrow, "--order", "left,right,top,low,bar", "--bar", "bar");
  expect(answer.bars.map((b) => b.goesIn)).toEqual(["spring"]);
  expect(answer.bars[0]!.why).toContain("with a gap of");
  await holds(JSON.stringify(narrow), answer);
});

describe("a crowded car with roof, screen opening and marks", () => {
  test.each(["hoop", "stay-l", "tie"])("%s", async (id) => {
    const answer = await asked(crowded, "--order", "hoop,across,stay-l,stay-r,tie,gusset", "--bar", id);
    expect(answer.bars.map((b) => b.goesIn)).toEqual(["free"]);
    await holds(JSON.stringify(crowded), answer);
  });
});
