import { useState } from "react";
import { NEW_POINT, PICK_END, pointWords } from "../../words/index.ts";
import { AskText, Choose, classes, Dialog, LengthPad, parts, writeIn } from "../kit/index.ts";
import {
  addThing,
  at,
  calledOf,
  entries,
  freeId,
  idFrom,
  type JobDocument,
  type Json,
  thingsOf,
} from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import { type EndDraft, pointIds } from "./draft.ts";
import styles from "./pick-end.module.css";
import { wholeIn } from "./whole.ts";

/** What an end of the tape may be held on. */
export interface Holds {
  readonly points: boolean;
  /** Bars by ID, in their order; none where only points will do. */
  readonly bars: readonly string[];
  /** Whether the outer corner of a bend will do. */
  readonly corners: boolean;
}

type Asks = "what" | "new point" | { readonly bar: string; readonly at?: "along" };

/** What was it held on? Points and bars by name; a new point in two taps. */
export function PickEnd(props: {
  readonly title: string;
  readonly holds: Holds;
  readonly document: JobDocument;
  /** The bar whose place on it is asked for at once: a tap in the picture named it. */
  readonly bar?: { readonly id: string; readonly along: number };
  readonly onTapIt?: () => void;
  readonly onPick: (end: EndDraft) => void;
  readonly onClose: () => void;
}) {
  const { document, holds, onPick, onClose } = props;
  const act = useActions();
  const show = useApp((s) => s.show);
  const results = useApp((s) => s.results);
  const [asks, setAsks] = useState<Asks>(props.bar ? { bar: props.bar.id, at: "along" } : "what");
  if (asks === "new point")
    return (
      <AskText
        title={NEW_POINT.title}
        label={NEW_POINT.name}
        value={NEW_POINT.usual}
        done={NEW_POINT.done}
        onClose={onClose}
        onDone={(text) => {
          const id = freeId(document, "point", idFrom(text));
          if (act.run(addThing("point", id, {}, NEW_POINT.command(id))).ok) onPick({ is: "point", id });
          else onClose();
        }}
      />
    );
  if (typeof asks === "object") {
    const { bar } = asks;
    const bends = results.bars.get(bar)?.bar.centreline.bends ?? [];
    if (asks.at === "along" || !holds.corners || bends.length === 0)
      return (
        <LengthPad
          title={PICK_END.distance(calledOf(document, "bar", bar))}
          value={props.bar?.id === bar ? wholeIn(props.bar.along, show.length) : undefined}
          unit={show.length}
          sides={PICK_END.fromEnds}
          write={writeIn(show).length}
          onClose={onClose}
          onSet={(along: Json | undefined) => along !== undefined && onPick({ is: "tube", bar, along })}
        />
      );
    return (
      <Choose
        title={PICK_END.place(calledOf(document, "bar", bar))}
        options={[
          ["along", PICK_END.along],
          ...bends.map((b) => [String(b.n), PICK_END.corner(b.n), PICK_END.cornerIs] as const),
        ]}
        onClose={onClose}
        onPick={(id) =>
          id === "along" ? setAsks({ bar, at: "along" }) : onPick({ is: "corner", bar, bend: Number(id) })
        }
      />
    );
  }
  const points = holds.points ? pointIds(document) : [];
  return (
    <Dialog title={props.title} onClose={onClose} wide>
      {props.onTapIt && (
        <button type="button" onClick={props.onTapIt}>
          {PICK_END.inPicture}
        </button>
      )}
      {holds.points && (
        <section aria-label={PICK_END.points}>
          <h3>{PICK_END.points}</h3>
          <ul className={styles.picks}>
            {points.map((id) => (
              <li key={id}>
                <button type="button" className={parts.choice} onClick={() => onPick({ is: "point", id })}>
                  <span>{pointWords(id)}</span>
                  {isUnknown(document, id) && <small>{PICK_END.notFound}</small>}
                </button>
              </li>
            ))}
            <li>
              <button
                type="button"
                className={classes(parts.choice, styles.new)}
                onClick={() => setAsks("new point")}
              >
                {PICK_END.newPoint}
              </button>
            </li>
          </ul>
        </section>
      )}
      {holds.bars.length > 0 && (
        <section aria-label={PICK_END.bars}>
          <h3>{PICK_END.bars}</h3>
          <ul className={styles.picks}>
            {holds.bars.map((id) => (
              <li key={id}>
                <button type="button" className={parts.choice} onClick={() => setAsks({ bar: id })}>
                  {calledOf(document, "bar", id)}
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
    </Dialog>
  );
}

const isUnknown = (document: JobDocument, id: string): boolean => {
  const point = thingsOf(document, "point")[id];
  return point !== undefined && !Array.isArray(point) && at(point, ["at"]) === undefined;
};

/** All bars of a job, by ID. */
export const barIds = (document: JobDocument): readonly string[] =>
  entries(thingsOf(document, "bar")).map(([id]) => id);
