import type { Restated } from "../../core/plan/index.ts";
import type { Write } from "../kit/index.ts";
import { calledOf, type JobDocument } from "../model/document/index.ts";
import { useActions } from "../model/state/index.ts";
import styles from "./changed.module.css";
import { sayChange } from "./changes.ts";

/** Which cards change, and what it costs those already cut. */
export function Changed(props: {
  readonly after: Pick<Restated, "stale" | "cut" | "lost">;
  readonly document: JobDocument;
  readonly write: Write;
}) {
  const { after, document, write } = props;
  const act = useActions();
  const list = [
    ...after.lost.map((id) => ({ id, says: "has no geometry any more", state: "off" })),
    ...after.cut.map((c) => ({
      id: c.id,
      says: `already ${c.progress}: ${sayChange(c, write)}`,
      state: "off",
    })),
    ...after.stale.map((c) => ({ id: c.id, says: sayChange(c, write), state: "stale" })),
  ];
  if (list.length === 0) return <p>No other card changes by more than the shop's gap.</p>;
  return (
    <section className={`moved ${styles.changed}`} aria-label="Cards that this changes">
      <h3>
        {list.length} card{list.length === 1 ? "" : "s"} change{list.length === 1 ? "s" : ""}
      </h3>
      <ul>
        {list.map(({ id, says, state }) => (
          <li key={id} className={state === "off" ? styles.off : undefined}>
            <button type="button" onClick={() => act.take(id)}>
              <span>{calledOf(document, "bar", id)}</span>
              <span className="numbers">{says}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
