import { type Plan, type Reuse, reuseOf } from "../../../../core/plan/index.ts";

/** What a made bar could become, and what it could be made again from. */
export const reuse = (plan: Plan, { bar }: { readonly bar: string }): readonly Reuse[] => reuseOf(plan, bar);
