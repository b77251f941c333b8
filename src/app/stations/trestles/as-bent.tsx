import type { ReactNode } from "react";
import { AS_BENT, sayLandings, sayVerdict } from "../../../words/index.ts";
import { parts } from "../../kit/index.ts";
import { calledOf, type JobDocument } from "../../model/document/index.ts";
import { useActions } from "../../model/state/index.ts";
import { Changed, Side } from "../../readings/index.ts";
import styles from "./as-bent.module.css";
import { AsBentTable } from "./as-bent-table.tsx";
import { isUsed, landsIn } from "./bent-outcome.tsx";
import type { Bent, Judged } from "./use-bent.ts";

/** The bar as bent: where it would land, which cards that changes, and what differs from the plan. */
export function AsBent(props: {
  readonly id: string;
  readonly document: JobDocument;
  readonly bent: Bent;
  /** The end at which it is held against the plan. */
  readonly held: "A" | "B";
  /** What it was made to. */
  readonly children?: ReactNode;
}) {
  const { id, document, bent } = props;
  const { answer, judged, write } = bent;
  const lands = landsIn(judged);
  return (
    <Side label={AS_BENT.label}>
      {answer?.judged === undefined && <p className={parts.quiet}>{AS_BENT.first}</p>}
      {judged && answer && (
        <>
          <p>{AS_BENT.freeEnd(props.held, write.length(judged.freeEnd))}</p>
          {lands && judged.verdict.placed && (
            <ul className={styles.landings}>
              {sayLandings(judged.verdict.placed, write.length).map((says) => (
                <li key={says}>{says}</li>
              ))}
            </ul>
          )}
          {lands && judged.after && !isUsed(document, id, judged) && (
            <Changed after={judged.after} document={document} write={write} />
          )}
          <AsBentTable bent={judged.bent} planned={answer.wanted} write={write} />
          {judged.others.length > 0 && <Others judged={judged} document={document} write={write} />}
        </>
      )}
      {props.children}
    </Side>
  );
}

/** Bars of the job that it could still become. */
function Others(props: {
  readonly judged: Judged;
  readonly document: JobDocument;
  readonly write: Bent["write"];
}) {
  const { judged, document, write } = props;
  const act = useActions();
  return (
    <section className={parts.moved} aria-label={AS_BENT.others}>
      <h3>{AS_BENT.others}</h3>
      <ul>
        {judged.others.map((m) => {
          const label = calledOf(document, "bar", m.id);
          return (
            <li key={`${m.id} ${m.reversed}`}>
              <button type="button" onClick={() => act.take(m.id)}>
                <span>{m.reversed ? AS_BENT.reversed(label) : label}</span>
                <span className={parts.numbers}>{sayVerdict(m.verdict, write)}</span>
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
