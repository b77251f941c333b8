import { MADE_LIST, MOVED } from "../../../words/index.ts";
import type { Write } from "../../kit/index.ts";
import { MadeList, parts } from "../../kit/index.ts";
import { useActions, useApp } from "../../model/state/index.ts";

/** All that the last change did, in two lists; nothing where it touched no bar. */
export function Changed({ write }: { readonly write: Write }) {
  return (
    <>
      <MadeChanged write={write} />
      <MovedList write={write} />
    </>
  );
}

/** What the last change did to what is made. */
function MadeChanged({ write }: { readonly write: Write }) {
  const { bars, gone, lost, labels, name } = useApp((s) => s.changed);
  const count = bars.length + gone.length + lost.length;
  if (count === 0) return null;
  return (
    <section className={parts.moved} aria-label={MADE_LIST.region}>
      <h3>{MADE_LIST.count(count)}</h3>
      {name && <p className={parts.quiet}>{name}</p>}
      <MadeList change={{ bars, gone, lost }} called={(id) => labels[id] ?? id} write={write} offers />
    </section>
  );
}

/** What the last change moved: each bar with its net length before and after. */
function MovedList({ write }: { readonly write: Write }) {
  const { name, bars } = useApp((s) => s.moves);
  const act = useActions();
  if (bars.length === 0) return null;
  return (
    <section className={parts.moved} aria-label={MOVED.region}>
      <h3>{MOVED.count(bars.length)}</h3>
      {name && <p className={parts.quiet}>{name}</p>}
      <ul>
        {bars.map((bar) => (
          <li key={bar.id}>
            <button type="button" onClick={() => act.take(bar.id)} disabled={bar.how === "gone"}>
              <span>{bar.label}</span>
              <span className={parts.numbers}>{MOVED.bar(bar, write)}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
