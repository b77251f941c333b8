import type { IssuedCard } from "../../../../core/job/index.ts";
import { issued } from "../../../../core/plan/index.ts";
import { isObject, type Json, withEntry } from "../../../../shared/index.ts";
import { STEP } from "../../../../words/index.ts";
import { type Command, done } from "../command.ts";

type Cards = Readonly<Record<string, IssuedCard>>;

/** Cards of these bars, each with the code of its figures, issued on a day (YYYY-MM-DD). */
export const issueCards = (codes: Readonly<Record<string, string>>, on: string): Command => ({
  name: STEP.issue,
  edit(document) {
    // a document that is edited has passed the schema, so these are cards
    const before = (isObject(document.cards) ? document.cards : {}) as unknown as Cards;
    const after = Object.entries(codes).reduce<Cards>(
      (cards, [bar, code]) => issued({ cards }, bar, code, on),
      before,
    );
    return done(after === before ? document : withEntry(document, "cards", after as unknown as Json));
  },
});
