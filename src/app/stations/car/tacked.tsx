import { useMemo, useState } from "react";
import type { Place } from "../../../core/job/index.ts";
import { directionWords, READING_LIST, TACKED } from "../../../words/index.ts";
import { parts, TakeOne } from "../../kit/index.ts";
import type { BarResult } from "../../model/compute/index.ts";
import { addReading, at, calledOf, entries, type JobDocument, thingsOf } from "../../model/document/index.ts";
import { useActions, useApp } from "../../model/state/index.ts";
import {
  Changed,
  type Draft,
  emptyDraft,
  keepTapeMark,
  keptAs,
  ReadingList,
  ReadingPad,
  readName,
  Side,
  TACK_KINDS,
  Two,
  tackedReading,
  tapeMark,
  wholeIn,
} from "../../readings/index.ts";
import { Sizes } from "./sizes.tsx";
import { TackedOutcome } from "./tacked-outcome.tsx";
import { type TackedState, useTacked, useTackWanted } from "./use-tacked.ts";

/** Readings on the bar in hand after it was tacked: where it is, and which cards that changes. */
export function Tacked({ document }: { readonly document: JobDocument }) {
  const id = useApp((s) => s.inHand);
  const result = useApp((s) => (id === null ? undefined : s.results.bars.get(id)));
  if (id === null || !result)
    return <TakeOne question={TACKED.which} next={["tacked", "welded", "fitted"]} />;
  return <TackedBar key={id} id={id} document={document} result={result} />;
}

function TackedBar(props: {
  readonly id: string;
  readonly document: JobDocument;
  readonly result: BarResult;
}) {
  const { id, document, result } = props;
  const act = useActions();
  const show = useApp((s) => s.show);
  const tacked = useTacked(id, document);
  const [draft, setDraft] = useState<Draft>(() => ({
    ...emptyDraft("height"),
    ...tapeMark(),
    ends: [{ is: "tube", bar: id, along: wholeIn(result.bar.centreline.length / 2, show.length) }, undefined],
  }));
  const path = useMemo(() => ["made", id, "tacked"], [id]);
  const bars = useMemo(() => [id, ...barsInPlace(document).filter((b) => b !== id)], [id, document]);
  const label = calledOf(document, "bar", id);
  const wanted = useTackWanted(id, draft, tacked.write);

  function keep(): void {
    const reading = tackedReading(draft);
    if (!reading) return;
    act.run(addReading(path, reading, TACKED.command(label, readName(draft, document))));
    const { value: _, ...rest } = draft;
    setDraft(rest);
  }

  return (
    <Two>
      <TackedOutcome id={id} document={document} tacked={tacked} />
      <Side label={TACKED.take}>
        <header className={parts.panelHead}>
          <h2>{TACKED.heading(label)}</h2>
          <p className={parts.quiet}>{TACKED.intro}</p>
        </header>
        <ReadingPad
          document={document}
          kinds={TACK_KINDS}
          onBars
          bars={bars}
          draft={draft}
          setDraft={(next) => {
            if (next.mark !== draft.mark) keepTapeMark(next.mark);
            setDraft(next);
          }}
          wanted={wanted}
          onKeep={keep}
        />
        <ReadingList document={document} path={path} fits={tacked.fits} unknown={READING_LIST.computing} />
      </Side>
      <TackedCards id={id} document={document} tacked={tacked} />
    </Two>
  );
}

/** Which cards it changes, and how far every place of it is from the plan. */
function TackedCards(props: {
  readonly id: string;
  readonly document: JobDocument;
  readonly tacked: TackedState;
}) {
  const { id, document, tacked } = props;
  const { answer, found, write } = tacked;
  const [bar] = found?.found.bars ?? [];
  const isKept = found !== undefined && keptAs(document, id, found.path);
  return (
    <Side label={TACKED.cards}>
      {answer?.judged === undefined && <p className={parts.quiet}>{TACKED.first}</p>}
      {found && !isKept && <Changed after={found.after} document={document} write={write} />}
      {bar && (
        <section aria-label={TACKED.distance}>
          <h3>{TACKED.distance}</h3>
          <Sizes
            sizes={bar.moved.map((v, i) => ({
              name: TACKED.place(i, bar.moved.length),
              size: TACKED.moved(write.length(v), v < 0.05 ? "" : wayOf(found, answer?.wanted, i)),
              error: write.length(bar.sd[i] ?? 0),
            }))}
          />
        </section>
      )}
    </Side>
  );
}

/** Which way an end or a corner is from where it was planned, in words. */
function wayOf(found: TackedState["found"], wanted: readonly Place[] | undefined, i: number): string {
  const [is, was] = [found?.path[i], wanted?.[i]];
  return is && was ? directionWords([is[0] - was[0], is[1] - was[1], is[2] - was[2]]) : "";
}

/** Bars to which a tape can run because they are in place. */
const barsInPlace = (document: JobDocument): readonly string[] =>
  entries(thingsOf(document, "bar")).flatMap(([id, bar]) =>
    ["fitted", "tacked", "welded"].includes(String(at(bar, ["progress"]))) ? [id] : [],
  );
