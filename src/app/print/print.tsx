import { PRINT_PAGE } from "../../words/index.ts";
import { parts } from "../kit/index.ts";
import { goToPage } from "../model/state/index.ts";

/** What is printed of the job in hand, and its pages before they are printed. */
export function Print() {
  return (
    <section aria-label={PRINT_PAGE.title} className={parts.panel}>
      <h2>{PRINT_PAGE.title}</h2>
      <button type="button" onClick={() => goToPage("shop")}>
        {PRINT_PAGE.back}
      </button>
    </section>
  );
}
