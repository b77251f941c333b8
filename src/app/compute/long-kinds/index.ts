import type { Plan } from "../../../core/plan/index.ts";
import { errors } from "./errors.ts";
import { fit } from "./fit.ts";

/** How far it has come, 0 to 1, and what it is at; and a part of the answer that need not wait for the rest. */
export type Report = (share: number, at: string, part?: unknown) => void;

/** What takes long enough to be watched and stopped: one file a kind. It runs in a worker of its own. */
export const LONG = { errors, fit } satisfies Readonly<
  Record<string, (plan: Plan, report: Report, asked?: unknown) => unknown>
>;

export type LongKind = keyof typeof LONG;
export type LongAnswer<K extends LongKind> = ReturnType<(typeof LONG)[K]>;
