import { readFileSync } from "node:fs";
import { readJob } from "../../src/core/job/index.ts";
import { planJob } from "../../src/core/plan/index.ts";
import { madeToOf } from "../../src/core/plan/record.ts";

// biome-ignore lint/suspicious/noExplicitAny: a job is edited here as a person edits its file
type Job = any;

const BAR = "pillar-bar-left";

/**
 * The demo with a pillar bar bent whose second bend came out some 3° over: it is to be eased. It was sawn 1 mm longer
 * than the plan wants now, so that its stations show what became of it.
 */
export function easedJob(): Job {
  const job = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as Job;
  job.bars[BAR].progress = "bent";
  const read = readJob(JSON.stringify(job));
  if (!read.ok) throw new Error("the demo is not read");
  const plan = planJob(read.job);
  const to = madeToOf(plan, plan.byId.get(BAR)!, "bent");
  job.made = {
    [BAR]: {
      to: { ...to, sawn: { ...to.sawn, length: to.sawn!.length + 1 } },
      bent: [{ what: "angle", bend: 2, angle: 45 }],
    },
  };
  return job;
}
