import { Suspense, useEffect, useMemo, useRef, useState } from "react";
import type { Survey } from "../../../core/survey/index.ts";
import { CAR, type Fits, fitsOf, KINDS } from "../../../words/index.ts";
import { InOneLine } from "../../answers/index.ts";
import type { ViewTap } from "../../cage/index.ts";
import { View } from "../../cage/index.ts";
import { parts, writeIn } from "../../kit/index.ts";
import { addReading, type JobDocument } from "../../model/document/index.ts";
import { useActions, useApp } from "../../model/state/index.ts";
import {
  barIds,
  carReading,
  type Draft,
  emptyDraft,
  pointIds,
  ReadingList,
  ReadingPad,
  readName,
  Side,
  withPoint,
} from "../../readings/index.ts";
import { Agreement } from "./agreement.tsx";
import { Datum } from "./datum.tsx";
import styles from "./read.module.css";

const READINGS = ["readings"];

/** The pad for a reading, the car as far as it is known, and what was read. */
export function Read(props: {
  readonly document: JobDocument;
  readonly survey: Survey | undefined;
  readonly isFresh: boolean;
  readonly draft: Draft;
  readonly setDraft: (draft: Draft) => void;
}) {
  const { document, survey, draft, setDraft } = props;
  const act = useActions();
  const results = useApp((s) => s.results);
  const show = useApp((s) => s.show);
  const [waits, setWaits] = useState<0 | 1>();
  const strip = useRef<HTMLElement>(null);
  useEffect(() => {
    // the pad is longer than a phone: what is to be tapped comes back into sight
    if (waits !== undefined) strip.current?.scrollIntoView({ block: "nearest" });
  }, [waits]);
  const [tapped, setTapped] = useState<{ end: 0 | 1; bar: string; along: number }>();
  const fits = useMemo(
    () => (survey ? fitsOf(survey, writeIn(show)) : new Map<number, Fits>()),
    [survey, show],
  );
  const bars = useMemo(() => barIds(document).filter((id) => results.bars.has(id)), [document, results.bars]);

  function keep(): void {
    const reading = carReading(draft);
    if (!reading) return;
    if (!act.run(addReading(READINGS, reading, readName(draft, document))).ok) return;
    // the same kind from the same place again: that is how one reads on
    setDraft({
      ...emptyDraft(draft.kind, draft.over),
      ends: draft.kind === "tape" ? [draft.ends[0], undefined] : [undefined, undefined],
    });
  }
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

  return (
    <div className={styles.read}>
      <section ref={strip} className={styles.view} aria-label={CAR.seen}>
        {waits !== undefined && (
          <div className={parts.waiting} role="status">
            <p>{draft.kind === "tape" ? CAR.waitForBar : CAR.waitForPoint}</p>
            <button type="button" data-escape onClick={() => setWaits(undefined)}>
              {CAR.cancel}
            </button>
          </div>
        )}
        <Picture draft={draft} onTap={tap} onPoint={tapPoint} />
      </section>
      <Side label={CAR.take}>
        {pointIds(document).length === 0 && <Datum />}
        <ReadingPad
          document={document}
          kinds={KINDS}
          onBars={false}
          bars={bars}
          draft={draft}
          setDraft={setDraft}
          wait={setWaits}
          {...(tapped ? { tapped } : {})}
          onTaken={() => setTapped(undefined)}
          onKeep={keep}
        />
      </Side>
      <section className={styles.taken} aria-label={CAR.taken} aria-busy={!props.isFresh}>
        <Agreement document={document} survey={survey} onRead={setDraft} />
        <ReadingList
          document={document}
          path={READINGS}
          fits={fits}
          unknown={props.isFresh ? CAR.barAlone : CAR.computing}
        />
      </section>
    </div>
  );
}

function Picture(props: {
  readonly draft: Draft;
  readonly onTap: (id: string | null, where: ViewTap | null) => void;
  readonly onPoint: (id: string) => void;
}) {
  const { ends } = props.draft;
  const job = useApp((s) => s.job);
  const results = useApp((s) => s.results);
  const inHand = useApp((s) => s.inHand);
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const points = useMemo(() => ends.flatMap((e) => (e?.is === "point" ? [e.id] : [])), [ends]);
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
