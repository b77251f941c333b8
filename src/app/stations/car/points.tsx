import { useState } from "react";
import type { Survey } from "../../../core/survey/index.ts";
import { EXPLAIN_ERROR, NEW_POINT, POINTS, sayAdvice } from "../../../words/index.ts";
import { AskText, parts } from "../../kit/index.ts";
import { addThing, at, freeId, idFrom, type JobDocument, thingsOf } from "../../model/document/index.ts";
import { useActions } from "../../model/state/index.ts";
import { type Draft, draftFrom, pointIds } from "../../readings/index.ts";
import { Datum } from "./datum.tsx";
import { PointCard } from "./point-card.tsx";
import styles from "./points.module.css";

/** Every point of the job: where it is, by how much that may be off, or what would fix it. */
export function Points(props: {
  readonly document: JobDocument;
  readonly survey: Survey | undefined;
  /** Takes an advised reading to the pad. */
  readonly onRead: (draft: Draft, of: string) => void;
}) {
  const { document, survey, onRead } = props;
  const act = useActions();
  const [isNew, setNew] = useState(false);
  const [edits, setEdits] = useState<string>();
  const ids = [...pointIds(document)].sort((a, b) => rank(a) - rank(b));
  /** What is not fixed first, then what was found, then what was given. */
  function rank(id: string): number {
    if (survey?.undetermined.some((u) => u.id === id)) return 0;
    const given = thingsOf(document, "point")[id];
    return given !== undefined && (Array.isArray(given) || at(given, ["at"]) !== undefined) ? 2 : 1;
  }

  return (
    <section className={styles.points} aria-label={POINTS.label}>
      <div className={parts.row}>
        <button type="button" className={parts.main} onClick={() => setNew(true)}>
          {POINTS.add}
        </button>
      </div>
      {survey?.mirrored.map(({ points, settle }) => (
        <div key={points.map((p) => p.id).join()} className={parts.notice}>
          <p>
            {POINTS.mirrored(
              points.map((p) => p.id),
              sayAdvice(settle),
            )}
          </p>
          <button type="button" onClick={() => onRead(draftFrom(settle), points[0]?.id ?? "")}>
            {POINTS.take}
          </button>
        </div>
      ))}
      {ids.length === 0 && <Datum />}
      {(survey?.cleaned.points.size ?? 0) > 0 && <p className={parts.quiet}>{EXPLAIN_ERROR}</p>}
      <ul className={styles.list}>
        {ids.map((id) => (
          <PointCard
            key={id}
            id={id}
            document={document}
            survey={survey}
            isEdited={edits === id}
            onEdit={() => setEdits(edits === id ? undefined : id)}
            onRead={onRead}
          />
        ))}
      </ul>
      {isNew && (
        <AskText
          title={NEW_POINT.title}
          label={NEW_POINT.name}
          value={NEW_POINT.usual}
          done={NEW_POINT.done}
          onClose={() => setNew(false)}
          onDone={(text) => {
            setNew(false);
            const id = freeId(document, "point", idFrom(text));
            act.run(addThing("point", id, {}, NEW_POINT.command(id)));
          }}
        />
      )}
    </section>
  );
}
