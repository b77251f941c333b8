import { readFileSync } from "node:fs";
import { type Fitting, findOrder, type Judged, newMemory } from "../src/core/fit/index.ts";
import { readJob } from "../src/core/job/index.ts";
import { fittingOf, planJob } from "../src/core/plan/index.ts";
import { crowded } from "../tests/support/crowded.ts";
import { judgeOrder } from "../tests/support/fit.ts";
import { resweep } from "../tests/support/resweep.ts";
import type { Row } from "./measure.ts";

/** Overlap that counts as touching (mm), as the fit has it. */
const TOUCH = 0.01;

/**
 * Every way of the demo car, in the job's own order and in the one found, and of a crowded car with roof and openings,
 * followed anew at 0.25 mm and 0.1° by code that shares nothing with the fit. Prints each bar; takes minutes.
 */
export function resweepRows(): Row[] {
  const demo = readFileSync("demo/sandling.json", "utf8");
  return [
    ...followed("the demo's own order", demo, (f) =>
      judgeOrder(
        f,
        f.bars.map((b) => b.bar.id),
      ),
    ),
    ...followed("the demo's order found", demo, (f) => findOrder(f).bars),
    ...followed("a crowded car", JSON.stringify(crowded), (f) => findOrder(f).bars),
  ];
}

function followed(order: string, text: string, judge: (fitting: Fitting) => readonly Judged[]): Row[] {
  const read = readJob(text);
  if (!read.ok) throw new Error(`${order}: the job does not pass`);
  const { job } = read;
  const plan = planJob(job);
  const effort = { seed: 1, nodes: 3000, most: 5, stop: () => false };
  const bars = judge({ ...fittingOf(plan), effort, memory: newMemory() });
  console.log(order);
  let failed = 0;
  let poses = 0;
  for (const [i, j] of bars.entries()) {
    if (j.goesIn === "no") {
      failed++;
      console.log(`${String(i + 1).padStart(3)}  ${j.bar}: no way`);
      continue;
    }
    const met = resweep(plan, job, j);
    const isClear = met.overlap < (j.touches?.by ?? j.spring) + TOUCH;
    const isTold = j.clearance === undefined || met.clearance > j.clearance * 0.98 - 0.3;
    if (!isClear || !isTold) failed++;
    poses += met.poses;
    const clearance = j.clearance === undefined ? "-" : j.clearance.toFixed(3);
    console.log(
      `${String(i + 1).padStart(3)}  ${j.bar.padEnd(34)}${j.goesIn.padEnd(7)}spring ${j.spring.toFixed(3)}  overlap met ${met.overlap.toFixed(4)}  clearance ${clearance}, met ${met.clearance.toFixed(3)}  ${met.poses} poses  ${isClear && isTold ? "holds" : "FAILS"}`,
    );
  }
  return [
    { what: `${order}: ways followed anew`, value: bars.length, unit: "" },
    { what: `${order}: poses looked at`, value: poses, unit: "" },
    { what: `${order}: ways that do not hold`, value: failed, unit: "", promise: { atMost: 0 } },
  ];
}
