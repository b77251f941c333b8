import type { Plan } from "../../../../core/plan/index.ts";
import { errors } from "./errors.ts";
import { fit } from "./fit.ts";
import type { Report } from "./report.ts";

/** What takes long enough to be watched and stopped: one file a kind. It runs in a worker of its own. */
export const LONG = { errors, fit } satisfies Readonly<
  Record<string, (plan: Plan, report: Report, asked?: unknown) => unknown>
>;

export type LongKind = keyof typeof LONG;
export type LongAnswer<K extends LongKind> = ReturnType<(typeof LONG)[K]>;
