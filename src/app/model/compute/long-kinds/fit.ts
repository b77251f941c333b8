import {
  askOf,
  cureOf,
  EFFORT,
  type FitMemory,
  type Fitting,
  findOrder,
  finished,
  type Judged,
  newMemory,
  type Ordered,
  type Reach,
  weldReach,
} from "../../../../core/fit/index.ts";
import { fittingOf, type Plan } from "../../../../core/plan/index.ts";
import { LONG_WORK } from "../../../../words/index.ts";
import type { Report } from "./report.ts";

/** What is asked of the order of fitting, and what was found out before. */
export type FitAsked = {
  /** What an earlier run gave back, or nothing. */
  readonly memory?: FitMemory;
} & (
  | {
      readonly what: "look";
      /** All bars that have a geometry, the first in first. */
      readonly order: readonly string[];
      /** Those of them that are not looked at yet. */
      readonly ask: readonly string[];
      /** Bars that are known not to go in, for which the smallest cure is not known. */
      readonly cures: readonly string[];
      /** Whether to say where a torch still gets to. */
      readonly reach: boolean;
    }
  | { readonly what: "find" }
);

/** The smallest cure within the order: the bar before which it would go in; null where no place before its own does. */
export interface FoundCure {
  readonly bar: string;
  readonly before: string | null;
}

/** What comes while it is still at work; nothing of it is lost when it is stopped. */
export type FitPart =
  | { readonly judged: Judged }
  | { readonly cure: FoundCure }
  | { readonly reach: readonly Reach[] }
  | { readonly memory: FitMemory };

export interface FitDone {
  readonly memory: FitMemory;
  /** Where an order was asked for. */
  readonly found?: Ordered;
}

/** The memory is large; it goes over at most so often (ms). */
const OFTEN = 2000;

/** The order of fitting looked at, bar by bar, or found. */
export function fit(plan: Plan, report: Report, asked?: unknown): FitDone {
  const task = (asked ?? { what: "find" }) as FitAsked;
  const memory = task.memory ?? newMemory();
  const called = (id: string): string => plan.byId.get(id)?.bar.label ?? id;
  const fitting: Fitting = { ...fittingOf(plan), effort: EFFORT, memory };
  if (task.what === "find") {
    let share = 0;
    const found = findOrder({
      ...fitting,
      onStep: ({ done, of, judged }) => {
        share = done / of;
        report(share, called(judged.bar), { judged });
      },
    });
    return { memory, found };
  }
  return look(fitting, task, memory, report, called);
}

function look(
  fitting: Fitting,
  { order, ask, cures, reach }: Extract<FitAsked, { what: "look" }>,
  memory: FitMemory,
  report: Report,
  called: (id: string) => string,
): FitDone {
  const answer = askOf(fitting);
  const among = (id: string): readonly string[] => order.slice(0, order.indexOf(id));
  const stuck = new Set(cures);
  let sent = performance.now();
  ask.forEach((id, i) => {
    report(i / ask.length, called(id));
    const judged = answer(id, among(id), false);
    if (judged.goesIn === "no") stuck.add(id);
    // What would let a bar in takes far longer to say than that it does not go in, and comes at the end.
    const said = judged.goesIn === "no" ? judged : finished(fitting, judged);
    report((i + 1) / ask.length, called(id), { judged: said });
    if (performance.now() - sent < OFTEN) return;
    report((i + 1) / ask.length, called(id), { memory });
    sent = performance.now();
  });
  if (reach) report(1, LONG_WORK.welds, { reach: weldReach(fitting, order) });
  const without: string[] = [];
  for (const bar of order.filter((id) => stuck.has(id))) {
    report(1, LONG_WORK.cure(called(bar)));
    const before = cureOf(fitting, order, bar)?.before ?? null;
    report(1, LONG_WORK.cure(called(bar)), { cure: { bar, before } });
    if (before === null) without.push(bar);
  }
  // Where no place in the order helps, less metal might.
  for (const bar of without) {
    report(1, LONG_WORK.shorter(called(bar)));
    report(1, LONG_WORK.shorter(called(bar)), { judged: finished(fitting, answer(bar, among(bar), false)) });
  }
  return { memory };
}
