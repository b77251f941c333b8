import { useState } from "react";
import { howBent } from "../../../cards/how-bent.ts";
import { sayBentSize, small, TO_READ } from "../../../words/index.ts";
import { Choose, parts } from "../../kit/index.ts";
import { addReading, calledOf, type JobDocument, type Json } from "../../model/document/index.ts";
import { useActions } from "../../model/state/index.ts";
import {
  AskBent,
  type BentDraft,
  bentAsRead,
  bentDrafts,
  bentJson,
  draftOfJson,
  draftOfReading,
  HowRead,
  plannedSize,
  ReadingList,
  Side,
} from "../../readings/index.ts";
import styles from "./to-read.module.css";
import type { Bent } from "./use-bent.ts";

/** What to read on the bent bar, the most useful first, and what was read. */
export function ToRead(props: {
  readonly id: string;
  readonly document: JobDocument;
  readonly bent: Bent;
  /** Numbers of the bends, from A, and the end fed first. */
  readonly bends: readonly number[];
  readonly fromEnd: "A" | "B";
}) {
  const { id, document, bent } = props;
  const { answer, fits, write } = bent;
  const act = useActions();
  const [asked, setAsked] = useState<BentDraft>();
  const [others, setOthers] = useState(false);
  const path = ["made", id, "bent"];
  const [best] = answer?.telling ?? [];
  const shown = asked ?? (best && draftOfReading(best.reading));
  const drafts = bentDrafts(props.bends, props.fromEnd);

  function keep(value: Json): void {
    if (!asked) return;
    const name = TO_READ.command(calledOf(document, "bar", id), small(sayBentSize(asked)));
    act.run(addReading(path, bentJson(asked, value), name));
    setAsked(undefined);
  }

  return (
    <Side label={TO_READ.label}>
      <h3>{answer && answer.counted.length > 0 ? TO_READ.next : TO_READ.first}</h3>
      {answer && answer.telling.length === 0 && <p className={parts.quiet}>{TO_READ.enough}</p>}
      <ol className={styles.list}>
        {answer?.telling.map((t) => {
          const draft = draftOfReading(t.reading);
          return (
            <li key={sayBentSize(draft)}>
              <button type="button" className={parts.choice} onClick={() => setAsked(draft)}>
                <span>{sayBentSize(draft)}</span>
                <small>{TO_READ.planned(plannedSize(t, write))}</small>
              </button>
            </li>
          );
        })}
      </ol>
      <div className={parts.row}>
        <button type="button" onClick={() => setOthers(true)}>
          {TO_READ.another}
        </button>
      </div>
      {shown && (
        <div className={styles.picture}>
          <HowRead
            picture={howBent(shown.what, "end" in shown ? shown.end : "B")}
            label={sayBentSize(shown)}
          />
        </div>
      )}
      <ReadingList
        document={document}
        path={path}
        fits={fits}
        unknown={TO_READ.computing}
        say={(reading) => {
          const draft = draftOfJson(reading);
          return { words: draft ? sayBentSize(draft) : "", size: bentAsRead(reading) };
        }}
      />
      {asked && <AskBent size={asked} write={write} onClose={() => setAsked(undefined)} onSet={keep} />}
      {others && (
        <Choose
          title={TO_READ.title}
          options={drafts.map((d, i) => [String(i), sayBentSize(d)])}
          onClose={() => setOthers(false)}
          onPick={(i) => {
            setOthers(false);
            setAsked(drafts[Number(i)]);
          }}
        />
      )}
    </Side>
  );
}
