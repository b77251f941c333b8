import { codeOf, type Plan } from "../../../../core/plan/index.ts";

/** The codes of the figures on the cards of some bars, by ID; a bar without a geometry has none. */
export interface CodesAsk {
  readonly bars: readonly string[];
}

export const codes = (plan: Plan, { bars }: CodesAsk): Readonly<Record<string, string>> =>
  Object.fromEntries(
    bars.flatMap((id) => {
      const bar = plan.byId.get(id);
      return bar ? [[id, codeOf(plan, bar)]] : [];
    }),
  );
