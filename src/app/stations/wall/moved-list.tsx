import type { Write } from "../../kit/index.ts";
import { parts } from "../../kit/index.ts";
import type { Moved, Moves } from "../../model/state/index.ts";
import { useActions } from "../../model/state/index.ts";

/** What the last change moved: each bar with its blank before and after. */
export function MovedList({ moves, write }: { readonly moves: Moves; readonly write: Write }) {
  const act = useActions();
  if (moves.name === undefined && moves.bars.length === 0) return null;
  return (
    <section className={parts.moved} aria-label="What the last change moved" aria-live="polite">
      <h3>
        {moves.bars.length === 0
          ? "The last change moved no bar"
          : `The last change moved ${moves.bars.length} bar${moves.bars.length === 1 ? "" : "s"}`}
      </h3>
      {moves.name && <p className={parts.quiet}>{moves.name}</p>}
      {moves.bars.length > 0 && (
        <ul>
          {moves.bars.map((bar) => (
            <li key={bar.id}>
              <button type="button" onClick={() => act.take(bar.id)} disabled={bar.how === "gone"}>
                <span>{bar.label}</span>
                <span className={parts.numbers}>{saysMoved(bar, write)}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function saysMoved({ how, before, after }: Moved, write: Write): string {
  if (how === "gone") return "gone";
  if (how === "without") return "has no place any more";
  if (how === "new") return `new, blank ${write.length(after ?? 0)}`;
  if (how === "stands")
    return `stands elsewhere; marks and ends as before, blank ${write.length(after ?? 0)}`;
  if (how === "ends") return `blank as before, ${write.length(after ?? 0)}; marks or ends changed`;
  const by = (after ?? 0) - (before ?? 0);
  return `blank ${write.length(before ?? 0)} → ${write.length(after ?? 0)}, ${write.fine(Math.abs(by))} ${by > 0 ? "longer" : "shorter"}`;
}
