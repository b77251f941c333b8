import { changeOf, type Plan } from "../../../../core/plan/index.ts";
import { type ChangeAsk, type MadeChange, withoutOwn } from "./change.ts";

/** The same edit, with bars cut loose that are fast in the car. */
export interface LoosenedAsk extends ChangeAsk {
  readonly loose: readonly string[];
}

/** What an edit does to what is made with bars cut loose that were fast in the car. */
export const loosened = (plan: Plan, ask: LoosenedAsk): MadeChange =>
  withoutOwn(changeOf(plan, ask.after, new Set([...ask.back, ...ask.loose])), ask);
