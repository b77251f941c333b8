import { type BarErrors, budget, type Plan } from "../../../../core/plan/index.ts";
import { LONG_WORK } from "../../../../words/index.ts";
import type { Report } from "./report.ts";

/** Nineteen bars of twenty; as the command line has it. */
const SAMPLING = { samples: 2000, seed: 1, confidence: 0.95 };

/** What every bar of the job may be off by. */
export interface ErrorBudget {
  readonly confidence: number;
  readonly bars: readonly BarErrors[];
}

export function errors(plan: Plan, report: Report): ErrorBudget {
  const steps = budget(plan, SAMPLING);
  for (;;) {
    const step = steps.next();
    if (step.done) return { confidence: SAMPLING.confidence, bars: step.value };
    const { done, of } = step.value;
    const bar = plan.bars[done - (of - plan.bars.length)];
    report(done / of, bar && done > of - plan.bars.length ? bar.bar.label : LONG_WORK.places);
  }
}
