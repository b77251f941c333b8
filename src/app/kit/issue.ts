import { issueCards } from "../model/document/index.ts";
import type { App } from "../model/state/index.ts";

/** The day as a card has it, by the clock of this device: YYYY-MM-DD. */
const today = (): string => {
  const now = new Date();
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
};

/** Counts the cards of bars as issued today, where their figures were not issued already. */
export const issuing =
  ({ computer, do: act }: Pick<App, "computer" | "do">) =>
  async (...bars: readonly string[]): Promise<void> => {
    const found = await computer.ask("codes", { bars });
    if (!found || Object.keys(found.answer).length === 0) return;
    act.run(issueCards(found.answer, today()));
    // what is drawn next has the card's number on it
    await computer.settled();
  };
