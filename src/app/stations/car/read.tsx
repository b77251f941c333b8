import { Suspense, useEffect, useMemo, useRef, useState } from "react";
import type { Survey } from "../../../core/survey/index.ts";
import { CAR, type Fits, fitsOf, KINDS, POINT_IN_HAND } from "../../../words/index.ts";
import { InOneLine } from "../../answers/index.ts";
import type { ViewTap } from "../../cage/index.ts";
import { View } from "../../cage/index.ts";
import { parts, writeIn } from "../../kit/index.ts";
import { addReading, type JobDocument, type Json } from "../../model/document/index.ts";
import { useActions, useApp } from "../../model/state/index.ts";
import {
  barIds,
  carReading,
  type Draft,
  emptyDraft,
  keepTapeMark,
  pointIds,
  ReadingPad,
  readName,
  Side,
  withPoint,
} from "../../readings/index.ts";
import { Agreement } from "./agreement.tsx";
import { ChoosePoint } from "./choose-point.tsx";
import { Datum } from "./datum.tsx";
import { useNextReads, wantedOf } from "./next-reads.ts";
import { PointSheet } from "./point-sheet.tsx";
import styles from "./read.module.css";
import { ReadingsByPoint } from "./readings-by-point.tsx";
import { onward, type Run, RunPad } from "./run.tsx";
import { SetUpLine } from "./set-up.tsx";

const READINGS = ["readings"];

/** The point in hand and what to read of it, the car as far as it is known, and what was read. */
export function Read(props: {
  readonly document: JobDocument;
  readonly survey: Survey | undefined;
  readonly isFresh: boolean;
  readonly point: string | undefined;
  readonly setPoint: (id: string) => void;
  readonly run: Run | undefined;
  readonly setRun: (run: Run | undefined) => void;
  readonly draft: Draft;
  readonly setDraft: (draft: Draft) => void;
  /** Takes an advised reading: its point comes into hand, and its keypad opens. */
  readonly onRead: (draft: Draft, of: string) => void;
}) {
  const { document, survey, point, setPoint, run, setRun, draft, setDraft } = props;
  const act = useActions();
  const show = useApp((s) => s.show);
  const [chooses, setChooses] = useState(false);
  const reads = useNextReads(point, survey, draft);
  const fits = useMemo(
    () => (survey ? fitsOf(survey, writeIn(show)) : new Map<number, Fits>()),
    [survey, show],
  );
  const pad = usePad(document, draft, setDraft);

  function keep(whole: Draft): boolean {
    const reading = carReading(whole);
    return reading !== undefined && act.run(addReading(READINGS, reading, readName(whole, document))).ok;
  }
  function keepInRow(value: Json): void {
    const read = run?.reads[run.i];
    if (run && read && keep({ ...read.draft, value })) setRun(onward(run));
  }
  function keepDraft(): void {
    if (!keep(draft)) return;
    // the same kind from the same place again: that is how one reads on
    setDraft({
      ...emptyDraft(draft.kind, draft),
      ends: draft.kind === "tape" ? [draft.ends[0], undefined] : [undefined, undefined],
    });
  }
  function setMark(mark: Json | undefined): void {
    keepTapeMark(mark);
    const { mark: _, ...rest } = draft;
    setDraft(mark === undefined ? rest : { ...rest, mark });
  }

  return (
    <div className={styles.read}>
      <section ref={pad.strip} className={styles.view} aria-label={CAR.seen}>
        {pad.waits !== undefined && (
          <div className={parts.waiting} role="status">
            <p>{draft.kind === "tape" ? CAR.waitForBar : CAR.waitForPoint}</p>
            <button type="button" data-escape onClick={() => pad.setWaits(undefined)}>
              {CAR.cancel}
            </button>
          </div>
        )}
        <Picture
          point={point}
          ends={pad.isOpen ? draft.ends : []}
          onTap={pad.tap}
          onPoint={(id) => (pad.isOpen ? pad.tapPoint(id) : setPoint(id))}
        />
      </section>
      <Side label={CAR.take}>
        <SetUpLine document={document} />
        {pointIds(document).length === 0 && <Datum />}
        <PointSheet
          id={point}
          document={document}
          survey={survey}
          isFresh={props.isFresh}
          reads={reads}
          draft={draft}
          onMark={setMark}
          onChoose={() => setChooses(true)}
          onRun={(i) => setRun({ reads, i })}
          onWanted={(read) => read.wanted && keep({ ...read.draft, value: read.wanted.value })}
        />
        <details
          className={styles.other}
          open={pad.isOpen}
          onToggle={(event) => pad.setOpen(event.currentTarget.open)}
        >
          <summary>{POINT_IN_HAND.other}</summary>
          <ReadingPad
            document={document}
            kinds={KINDS}
            onBars={false}
            bars={pad.bars}
            draft={draft}
            setDraft={(next) => {
              if (next.mark !== draft.mark) keepTapeMark(next.mark);
              setDraft(next);
            }}
            wanted={pad.wanted(survey, point)}
            wait={pad.setWaits}
            {...(pad.tapped ? { tapped: pad.tapped } : {})}
            onTaken={pad.onTaken}
            onKeep={keepDraft}
          />
        </details>
      </Side>
      <section className={styles.taken} aria-label={CAR.taken} aria-busy={!props.isFresh}>
        <Agreement document={document} survey={survey} onRead={props.onRead} />
        <ReadingsByPoint
          document={document}
          inHand={point}
          fits={fits}
          unknown={props.isFresh ? CAR.barAlone : CAR.computing}
        />
      </section>
      {chooses && (
        <ChoosePoint
          document={document}
          onClose={() => setChooses(false)}
          onChosen={(id) => {
            setChooses(false);
            setPoint(id);
          }}
        />
      )}
      {run && (
        <RunPad
          run={run}
          document={document}
          onKeep={keepInRow}
          onSkip={() => setRun(onward(run))}
          onClose={() => setRun(undefined)}
        />
      )}
    </div>
  );
}

/** The pad for any other reading: whether it is open, and what a tap in the picture means to it. */
function usePad(document: JobDocument, draft: Draft, setDraft: (draft: Draft) => void) {
  const act = useActions();
  const results = useApp((s) => s.results);
  const show = useApp((s) => s.show);
  const [isOpen, setOpen] = useState(false);
  const [waits, setWaits] = useState<0 | 1>();
  const [tapped, setTapped] = useState<{ end: 0 | 1; bar: string; along: number }>();
  const strip = useRef<HTMLElement>(null);
  useEffect(() => {
    // the pad is longer than a phone: what is to be tapped comes back into sight
    if (waits !== undefined) strip.current?.scrollIntoView({ block: "nearest" });
  }, [waits]);
  const bars = useMemo(() => barIds(document).filter((id) => results.bars.has(id)), [document, results.bars]);

  function tap(id: string | null, where: ViewTap | null): void {
    if (waits === undefined) {
      act.take(id);
      return;
    }
    if (id === null || where === null || draft.kind !== "tape") return;
    setTapped({ end: waits, bar: id, along: where.along });
    setWaits(undefined);
  }
  function tapPoint(id: string): void {
    setDraft(withPoint(draft, id, waits));
    setWaits(undefined);
  }
  const wanted = (survey: Survey | undefined, point: string | undefined) =>
    wantedOf(draft, point, results, survey, writeIn(show));
  const onTaken = (): void => setTapped(undefined);
  return { isOpen, setOpen, waits, setWaits, tapped, onTaken, strip, bars, tap, tapPoint, wanted };
}

function Picture(props: {
  readonly point: string | undefined;
  readonly ends: Draft["ends"] | readonly [];
  readonly onTap: (id: string | null, where: ViewTap | null) => void;
  readonly onPoint: (id: string) => void;
}) {
  const { ends, point } = props;
  const job = useApp((s) => s.job);
  const results = useApp((s) => s.results);
  const inHand = useApp((s) => s.inHand);
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const points = useMemo(
    () => [
      ...(point === undefined ? [] : [point]),
      ...ends.flatMap((e) => (e?.is === "point" ? [e.id] : [])),
    ],
    [ends, point],
  );
  return (
    <View
      small
      results={results}
      job={job?.read.ok ? job.read.job : undefined}
      inHand={inHand}
      points={points}
      onTap={props.onTap}
      onPoint={props.onPoint}
      names="always"
      says={(id) => (
        <Suspense>
          <InOneLine id={id} />
        </Suspense>
      )}
      label={CAR.picture}
      unit={show.length}
      write={write.length}
    />
  );
}
