import type { Ordered } from "../../core/fit/index.ts";
import type { FitWords } from "../../words/index.ts";
import { useActions } from "../use-app.ts";
import { hangAll } from "./commands.ts";
import type { Tag } from "./row.ts";
import { useLook } from "./use-look.ts";

/** An order that the program found: what it would do, hung only when the user says so. */
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
    <section className="found" aria-label="The order that was found">
      <h3>{isSame ? "The order that was found is the one that hangs here" : "An order was found"}</h3>
      <p>
        {stuck.length === 0
          ? `All ${found.bars.length} go in${sprung.length > 0 ? `, ${sprung.length} of them sprung` : ""}.`
          : `${found.bars.length - stuck.length} of ${found.bars.length} go in.`}
      </p>
      {found.untacked.map((u) => (
        <p key={u.bar}>
          {u.leave.length > 0
            ? `${words.called(u.bar)} goes in while ${u.leave.map(words.called).join(", ")} ${u.leave.length > 1 ? "are" : "is"} not tacked.`
            : `${words.called(u.bar)}: nothing tried, left untacked, lets it in.`}
        </p>
      ))}
      {!isSame && (
        <ol className="found-list">
          {order.map((id) => (
            <li key={id}>{words.called(id)}</li>
          ))}
        </ol>
      )}
      <div className="row">
        {!isSame && (
          <button type="button" className="main" onClick={() => act.run(hangAll(order))}>
            Hang them so
          </button>
        )}
        <button type="button" onClick={() => looking.leave()}>
          {isSame ? "All right" : "Leave them as they hang"}
        </button>
      </div>
    </section>
  );
}
