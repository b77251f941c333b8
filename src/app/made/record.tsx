import type { ReactNode } from "react";
import { AS_MADE, type RecordLine } from "../../words/index.ts";
import { Caution, parts } from "../kit/index.ts";
import styles from "./record.module.css";

/** What one step was made to, with what the plan wants now where that is something else. */
export function Record(props: {
  readonly heading: string;
  readonly lines: readonly RecordLine[];
  /** The card that it was made to, where that is another one now. */
  readonly card?: number | undefined;
  readonly note?: string | undefined;
}) {
  const { heading, lines, card, note } = props;
  return (
    <section className={styles.record} aria-label={heading}>
      <h3>
        {heading}
        {card !== undefined && <small>{AS_MADE.toCard(card)}</small>}
      </h3>
      <dl>
        {lines.map(({ what, made, wanted }) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>
              <strong>{made}</strong>
              {wanted !== undefined && <em>{AS_MADE.wanted(wanted)}</em>}
            </dd>
          </div>
        ))}
      </dl>
      {note && <p className={parts.quiet}>{note}</p>}
    </section>
  );
}

/** A page of a bar whose steps here are done: what they were made to, nothing to do again. */
export function RecordPage(props: {
  readonly head: ReactNode;
  readonly says: string;
  readonly children: ReactNode;
  /** Where it goes on, and making it again. */
  readonly foot: ReactNode;
}) {
  return (
    <section className={styles.page} aria-label={AS_MADE.label}>
      {props.head}
      <div className={styles.body}>
        <p className={styles.says}>{props.says}</p>
        {props.children}
      </div>
      <div className={styles.foot}>
        <Caution steps={["lifting"]} />
        {props.foot}
      </div>
    </section>
  );
}
