import { type AsMade, asMade, oldPaper, type Plan } from "../../../../core/plan/index.ts";

/** What is done of a bar already, and whether the card in the shop has other figures than the plan. */
export interface AsMadeAsk {
  readonly bar: string;
}

export interface AsMadeReply {
  /** Of a bar that is sawn or further. */
  readonly made?: AsMade;
  readonly old?: { readonly had: number; readonly now: number };
}

export function asMadeNow(plan: Plan, { bar }: AsMadeAsk): AsMadeReply {
  const [made, old] = [asMade(plan, bar), oldPaper(plan, bar)];
  return { ...(made ? { made } : {}), ...(old ? { old } : {}) };
}
