import type { Finding } from "../../../../core/findings/index.ts";
import { dangersOf, type Plan } from "../../../../core/plan/index.ts";

/** Everything in the job that can hurt a person. */
export type DangersAsk = Readonly<Record<never, never>>;

export const dangers = (plan: Plan, _ask: DangersAsk): readonly Finding[] => dangersOf(plan);
