import type { Ordered } from "../../core/fit/index.ts";
import type { FitWords } from "../../words/index.ts";
import { FOUND } from "../../words/index.ts";
import { parts } from "../kit/index.ts";
import { useActions } from "../model/state/index.ts";
import { takeFound } from "./commands.ts";
import styles from "./found-order.module.css";
import type { Tag } from "./row.ts";
import { useLook } from "./use-look.ts";

/** An order that the program found: what it would do, used only when the user asks for that. */
export function FoundOrder(props: {
  readonly found: Ordered;
  readonly row: readonly Tag[];
  readonly words: FitWords;
}) {
  const { found, row, words } = props;
  const act = useActions();
  const [, looking] = useLook();
  const now = row.map((t) => t.id);
  // Bars without a place are in no order that can be found; they come last.
  const order = [...found.order, ...now.filter((id) => !found.order.includes(id))];
  const isSame = order.every((id, i) => id === now[i]);
  const stuck = found.bars.filter((j) => j.goesIn === "no");
  const sprung = found.bars.filter((j) => j.goesIn === "spring");
  return (
    <section className={styles.found} aria-label={FOUND.label}>
      <h3>{isSame ? FOUND.same : FOUND.title}</h3>
      <p>
        {stuck.length === 0
          ? FOUND.all(found.bars.length, sprung.length)
          : FOUND.some(found.bars.length - stuck.length, found.bars.length)}
      </p>
      {found.untacked.map((u) => (
        <p key={u.bar}>{FOUND.untacked(words.called(u.bar), u.leave.map(words.called))}</p>
      ))}
      {!isSame && (
        <ol className={styles.list}>
          {order.map((id) => (
            <li key={id}>{words.called(id)}</li>
          ))}
        </ol>
      )}
      <div className={parts.row}>
        {!isSame && (
          <button type="button" className={parts.main} onClick={() => act.run(takeFound(order))}>
            {FOUND.use}
          </button>
        )}
        <button type="button" onClick={() => looking.leave()}>
          {isSame ? FOUND.ok : FOUND.keep}
        </button>
      </div>
    </section>
  );
}
