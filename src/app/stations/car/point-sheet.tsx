import { useState } from "react";
import type { Survey } from "../../../core/survey/index.ts";
import { READING_PAD as PAD, pointWords, POINT_IN_HAND as SAYS, WANTED } from "../../../words/index.ts";
import { classes, LengthPad, mmOf, parts, writeIn } from "../../kit/index.ts";
import type { JobDocument, Json } from "../../model/document/index.ts";
import { useApp } from "../../model/state/index.ts";
import { type Draft, heldAt, sayReading } from "../../readings/index.ts";
import type { NextRead } from "./next-reads.ts";
import styles from "./point-sheet.module.css";

/** The point that is measured now, and its readings in the order in which they tell most: one tap begins the row. */
export function PointSheet(props: {
  readonly id: string | undefined;
  readonly document: JobDocument;
  readonly survey: Survey | undefined;
  readonly isFresh: boolean;
  readonly reads: readonly NextRead[];
  readonly draft: Draft;
  readonly onMark: (mark: Json | undefined) => void;
  readonly onChoose: () => void;
  /** Begins with the reading at this place of the list. */
  readonly onRun: (from: number) => void;
  readonly onWanted: (read: NextRead) => void;
}) {
  const { id, reads, document } = props;
  if (id === undefined)
    return (
      <section className={styles.sheet} aria-label={SAYS.region}>
        <button type="button" className={classes(parts.main, styles.choose)} onClick={props.onChoose}>
          {SAYS.choose}
        </button>
        <p className={parts.quiet}>{SAYS.none}</p>
      </section>
    );
  return (
    <section className={styles.sheet} aria-label={SAYS.region} aria-busy={!props.isFresh}>
      <header className={styles.head}>
        <h2>{pointWords(id)}</h2>
        <button type="button" onClick={props.onChoose}>
          {SAYS.another}
        </button>
        <Known id={id} survey={props.survey} />
      </header>
      <TapeHeld mark={props.draft.mark} onMark={props.onMark} />
      {reads.length > 0 && (
        <button type="button" className={classes(parts.main, styles.choose)} onClick={() => props.onRun(0)}>
          {SAYS.row(reads.length)}
        </button>
      )}
      <ol className={styles.reads} aria-label={SAYS.list}>
        {reads.map((read, i) => (
          <li key={sayReading(read.draft, document)}>
            <button type="button" className={styles.read} onClick={() => props.onRun(i)}>
              <span>{read.says}</span>
              <small>{read.gains}</small>
            </button>
            {read.wanted && (
              <button
                type="button"
                aria-label={WANTED.take(read.wanted.says, sayReading(read.draft, document))}
                onClick={() => props.onWanted(read)}
              >
                {read.wanted.says}
              </button>
            )}
          </li>
        ))}
      </ol>
      {reads.length === 0 && <p className={parts.quiet}>{whyNone(id, props.survey, props.isFresh)}</p>}
    </section>
  );
}

function whyNone(id: string, survey: Survey | undefined, isFresh: boolean): string {
  if (!isFresh) return SAYS.waiting;
  return survey?.undetermined.some((u) => u.id === id) ? SAYS.noOthers : SAYS.nothing;
}

/** How well the point is known by now. */
function Known({ id, survey }: { readonly id: string; readonly survey: Survey | undefined }) {
  const show = useApp((s) => s.show);
  if (!survey) return null;
  const loose = survey.undetermined.find((u) => u.id === id);
  const found = survey.cleaned.points.get(id);
  const isMirrored = survey.mirrored.some((m) => m.points.some((p) => p.id === id));
  const error = found ? Math.hypot(...found.sd) : 0;
  return (
    <p className={classes(styles.known, loose && styles.loose)}>
      {loose
        ? SAYS.loose(loose.readings)
        : found && (error > 0 ? SAYS.known(writeIn(show).fine(error)) : SAYS.exact)}
      {isMirrored && ` ${SAYS.mirrored}`}
    </p>
  );
}

/** What of the tape is held at its first end: it stays so from reading to reading. */
function TapeHeld(props: {
  readonly mark: Json | undefined;
  readonly onMark: (mark: Json | undefined) => void;
}) {
  const { mark, onMark } = props;
  const show = useApp((s) => s.show);
  const [asks, setAsks] = useState(false);
  const set = (to: Json | undefined): void => {
    setAsks(false);
    onMark(to === undefined || mmOf(to) === 0 ? undefined : to);
  };
  return (
    <p className={classes(styles.held, mark !== undefined && styles.marked)}>
      {PAD.held}{" "}
      <button
        type="button"
        className={parts.value}
        aria-label={`${PAD.held}: ${heldAt(mark)}`}
        onClick={() => setAsks(true)}
      >
        {heldAt(mark)}
      </button>
      {mark !== undefined && ` ${SAYS.takenOff}`}
      {asks && (
        <LengthPad
          title={PAD.heldMark}
          value={mark}
          unit={show.length}
          write={writeIn(show).fine}
          clear={PAD.byHook}
          wrong={(mm) => (mm < 0 ? PAD.noMark : undefined)}
          onClose={() => setAsks(false)}
          onSet={set}
        />
      )}
    </p>
  );
}
