import type { Plan } from "../../../../core/plan/index.ts";

/** What can be asked of the plan beside its bars: one file a kind, which comes when it is first asked for. */
const ANSWERS = {
  asMade: async () => (await import("./as-made.ts")).asMadeNow,
  codes: async () => (await import("./codes.ts")).codes,
  dangers: async () => (await import("./dangers.ts")).dangers,
  survey: async () => (await import("./survey.ts")).survey,
  trestles: async () => (await import("./trestles.ts")).trestles,
  tacked: async () => (await import("./tacked.ts")).tacked,
  tackWanted: async () => (await import("./tacked.ts")).tackWanted,
  marked: async () => (await import("./marked.ts")).marked,
  change: async () => (await import("./change.ts")).change,
  loosened: async () => (await import("./loosened.ts")).loosened,
  differs: async () => (await import("./differs.ts")).differs,
  reuse: async () => (await import("./reuse.ts")).reuse,
  gaps: async () => (await import("./gaps.ts")).gaps,
};

type Answers = { readonly [K in keyof typeof ANSWERS]: Awaited<ReturnType<(typeof ANSWERS)[K]>> };
export type AskKind = keyof Answers;
export type AskOf<K extends AskKind> = Parameters<Answers[K]>[1];
export type AnswerOf<K extends AskKind> = ReturnType<Answers[K]>;

/** What answers a kind of question from a plan. */
export const answererOf = async <K extends AskKind>(
  kind: K,
): Promise<(plan: Plan, ask: AskOf<K>) => AnswerOf<K>> =>
  (await ANSWERS[kind]()) as (plan: Plan, ask: AskOf<K>) => AnswerOf<K>;
