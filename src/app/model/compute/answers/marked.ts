import {
  type Mark,
  type Marked,
  marked as markedIn,
  type NotchMethod,
  type Plan,
} from "../../../../core/plan/index.ts";

/** A step that is marked done: of the whole bar, or the notch of one end. */
export interface MarkedAsk {
  readonly bar: string;
  readonly mark: Mark;
  readonly by?: NotchMethod;
}

/** What marking it sets; undefined for a bar without geometry. */
export const marked = (plan: Plan, { bar, mark, by }: MarkedAsk): Marked | undefined =>
  markedIn(plan, bar, mark, by);
