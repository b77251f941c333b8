import { readFileSync } from "node:fs";
import { readJob } from "../src/core/job/index.ts";
import { barErrors, placeErrors, planJob } from "../src/core/plan/index.ts";
import { inTurn, type Row } from "./measure.ts";

/** The demo's whole error budget: every bar, 2,000 samples, another seed each time. */
export function errorRows(): Row[] {
  const read = readJob(readFileSync("demo/sandling.json", "utf8"));
  if (!read.ok) throw new Error("the demo does not read");
  const plan = planJob(read.job);
  let seed = 0;
  const budget = (): number => {
    seed++;
    const wanted = placeErrors(plan);
    const sampling = { samples: 2000, seed, confidence: 0.95 };
    return plan.bars.reduce((s, b) => s + barErrors(plan, b, sampling, wanted.get(b.id)).made.within, 0);
  };
  const [value] = inTurn([budget], 5, 2);
  return [
    {
      what: "demo, 36 bars: error budget, 2,000 samples",
      value: value!,
      unit: "ms",
      promise: { atMost: 2000 },
    },
  ];
}
