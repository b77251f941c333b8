import type { Plan } from "../../../../core/plan/index.ts";
import { type ChangeAsk, judged, type MadeChange } from "./change.ts";

/** The same edit, with bars cut loose that are fast in the car. */
export interface LoosenedAsk extends ChangeAsk {
  readonly loose: readonly string[];
}

export const loosened = (plan: Plan, ask: LoosenedAsk): MadeChange => judged(plan, ask, ask.loose);
