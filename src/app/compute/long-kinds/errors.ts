import { type BarErrors, barErrors, type Plan, placeErrors } from "../../../core/plan/index.ts";
import type { Report } from "./index.ts";

/** Nineteen bars of twenty; as the command line has it. */
const SAMPLING = { samples: 2000, seed: 1, confidence: 0.95 };

/** What every bar of the job may be off by. */
export interface ErrorBudget {
  readonly confidence: number;
  readonly bars: readonly BarErrors[];
}

export function errors(plan: Plan, report: Report): ErrorBudget {
  report(0, "the places measured");
  const wanted = placeErrors(plan);
  const bars = plan.bars.map((b, i): BarErrors => {
    report((i + 1) / (plan.bars.length + 1), b.bar.label);
    return barErrors(plan, b, SAMPLING, wanted.get(b.id));
  });
  return { confidence: SAMPLING.confidence, bars };
}
