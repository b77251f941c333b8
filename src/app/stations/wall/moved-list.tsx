import { MADE_LIST, MOVED } from "../../../words/index.ts";
import type { Write } from "../../kit/index.ts";
import { MadeList, parts } from "../../kit/index.ts";
import type { KeptChange, Moves } from "../../model/state/index.ts";
import { useActions } from "../../model/state/index.ts";

/** What the last change did to what is made; nothing where it touched none of it. */
export function MadeChanged({ change, write }: { readonly change: KeptChange; readonly write: Write }) {
  const { bars, gone, lost, labels } = change;
  const count = bars.length + gone.length + lost.length;
  if (count === 0) return null;
  return (
    <section className={parts.moved} aria-label={MADE_LIST.region} aria-live="polite">
      <h3>{MADE_LIST.count(count)}</h3>
      {change.name && <p className={parts.quiet}>{change.name}</p>}
      <MadeList change={change} called={(id) => labels[id] ?? id} write={write} offers />
    </section>
  );
}

/** What the last change moved: each bar with its net length before and after. */
export function MovedList({ moves, write }: { readonly moves: Moves; readonly write: Write }) {
  const act = useActions();
  if (moves.name === undefined && moves.bars.length === 0) return null;
  return (
    <section className={parts.moved} aria-label={MOVED.region} aria-live="polite">
      <h3>{MOVED.count(moves.bars.length)}</h3>
      {moves.name && <p className={parts.quiet}>{moves.name}</p>}
      {moves.bars.length > 0 && (
        <ul>
          {moves.bars.map((bar) => (
            <li key={bar.id}>
              <button type="button" onClick={() => act.take(bar.id)} disabled={bar.how === "gone"}>
                <span>{bar.label}</span>
                <span className={parts.numbers}>{MOVED.bar(bar, write)}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
