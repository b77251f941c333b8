import type { Restated } from "../../core/plan/index.ts";
import { CHANGED, sayChange } from "../../words/index.ts";
import type { Write } from "../kit/index.ts";
import { classes, parts } from "../kit/index.ts";
import { calledOf, type JobDocument } from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import styles from "./changed.module.css";

/** Which cards change, and what that means for those already cut. */
export function Changed(props: {
  readonly after: Pick<Restated, "stale" | "cut" | "lost">;
  readonly document: JobDocument;
  readonly write: Write;
}) {
  const { after, document, write } = props;
  const act = useActions();
  const gap = useApp((s) => (s.job?.read.ok ? s.job.read.job.shop.gap : undefined));
  const list = [
    ...after.lost.map((id) => ({ id, says: CHANGED.lost, isOff: true })),
    ...after.cut.map((c) => ({
      id: c.id,
      says: CHANGED.already(c.progress, sayChange(c, write.length)),
      isOff: true,
    })),
    ...after.stale.map((c) => ({ id: c.id, says: sayChange(c, write.length), isOff: false })),
  ];
  if (list.length === 0) return gap === undefined ? null : <p>{CHANGED.none(gap, write)}</p>;
  return (
    <section className={classes(parts.moved, styles.changed)} aria-label={CHANGED.label}>
      <h3>{CHANGED.title(list.length)}</h3>
      <ul>
        {list.map(({ id, says, isOff }) => (
          <li key={id} className={isOff ? styles.off : undefined}>
            <button type="button" onClick={() => act.take(id)}>
              <span>{calledOf(document, "bar", id)}</span>
              <span className={parts.numbers}>{says}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
