import type { Plan } from "../../../core/plan/index.ts";
import { dangers } from "./dangers.ts";
import { gaps } from "./gaps.ts";
import { survey } from "./survey.ts";
import { tacked } from "./tacked.ts";
import { trestles } from "./trestles.ts";

/** What can be asked of the plan beside its bars: one file a kind. */
const ANSWERS = { dangers, survey, trestles, tacked, gaps };

type Answers = typeof ANSWERS;
export type AskKind = keyof Answers;
export type AskOf<K extends AskKind> = Parameters<Answers[K]>[1];
export type AnswerOf<K extends AskKind> = ReturnType<Answers[K]>;

/** Answers a question from a plan. */
export function answerFrom<K extends AskKind>(plan: Plan, kind: K, ask: AskOf<K>): AnswerOf<K> {
  const answer = ANSWERS[kind] as (plan: Plan, ask: AskOf<K>) => AnswerOf<K>;
  return answer(plan, ask);
}
