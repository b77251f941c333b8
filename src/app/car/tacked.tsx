import { useMemo, useState } from "react";
import type { Fits } from "../../cards/reading-words.ts";
import {
  addReading,
  at,
  calledOf,
  entries,
  forgetAsBuilt,
  type JobDocument,
  keepAsBuilt,
  setProgress,
  thingsOf,
} from "../document/index.ts";
import { TakeOne } from "../stations/take-one.tsx";
import { writeIn } from "../stations/write.ts";
import { useAnswer } from "../use-answer.ts";
import { useActions, useApp } from "../use-app.ts";
import { Changed } from "./changed.tsx";
import { type Draft, emptyDraft, TACK_KINDS, tackedReading } from "./draft.ts";
import { keptAs } from "./kept.ts";
import { ReadingList } from "./reading-list.tsx";
import { ReadingPad } from "./reading-pad.tsx";
import { readName } from "./words.ts";

/** Readings on the bar in hand after it was tacked: how it stands, and which cards that changes. */
export function Tacked({ document }: { readonly document: JobDocument }) {
  const id = useApp((s) => s.inHand);
  if (id === null) return <TakeOne question="which one was tacked?" />;
  return <TackedBar key={id} id={id} document={document} />;
}

function TackedBar({ id, document }: { readonly id: string; readonly document: JobDocument }) {
  const act = useActions();
  const show = useApp((s) => s.show);
  const results = useApp((s) => s.results);
  const write = useMemo(() => writeIn(show), [show]);
  const bar = results.bars.get(id);
  const told = useAnswer(
    "tacked",
    useMemo(() => ({ bar: id }), [id]),
  );
  const middle = bar ? Math.round(bar.bar.centreline.length / 2) : 0;
  const [draft, setDraft] = useState<Draft>(() => ({
    ...emptyDraft("height"),
    ends: [{ is: "tube", bar: id, along: middle }, undefined],
  }));
  const path = useMemo(() => ["made", id, "tacked"], [id]);
  const label = calledOf(document, "bar", id);
  const progress = at(document, ["bars", id, "progress"]);
  const isTacked = progress === "tacked" || progress === "welded";
  const answer = told?.answer;
  const judged = answer?.judged;
  const found = judged === undefined || judged === "none" ? undefined : judged;
  const fits = useMemo(() => {
    const out = new Map<number, Fits>();
    if (!answer) return out;
    for (const i of answer.waiting) out.set(i, { ok: true, says: "waits: its point has no place yet" });
    answer.counted.forEach((index, k) => {
      const r = found?.found.readings[k];
      if (!r) return;
      const suspect = found?.found.suspect === k;
      out.set(index, {
        ok: !suspect,
        says: suspect
          ? `read it once more: what this shop scatters by allows about ${write.length(r.computed)}`
          : `fits (${Math.abs(r.normalized).toFixed(1)} times its error)`,
      });
    });
    return out;
  }, [answer, found, write]);
  const bars = useMemo(() => [id, ...tackedBars(document).filter((b) => b !== id)], [id, document]);
  if (!bar) return <p className="wait">This bar has no place in the car yet; the Wall says what keeps it.</p>;

  function keep(): void {
    const reading = tackedReading(draft);
    if (!reading) return;
    act.run(addReading(path, reading, `${label}: ${readName(draft, document)}`));
    const { value: _, ...rest } = draft;
    setDraft(rest);
  }

  const worst = found?.found.bars[0];
  const most = worst ? worst.moved.indexOf(Math.max(...worst.moved)) : 0;
  const off = worst ? worst.moved[most]! : 0;
  const says = worst
    ? `${placeName(most, worst.moved.length)} stands ${write.length(off)} ± ${write.length(worst.sd[most]!)} from where it was to be.`
    : "";
  const isKept = found !== undefined && keptAs(document, id, found.path);

  function goByIt(): void {
    if (!found) return;
    const why = `${label} stands ${write.length(off)} off`;
    const stale = [...found.after.stale, ...found.after.cut].map((c) => {
      const blank = results.bars.get(c.id)?.bend.blank;
      return { bar: c.id, why, ...(blank === undefined ? {} : { blank }) };
    });
    act.run(keepAsBuilt(found.paths, stale, `${label} as it stands`));
  }

  return (
    <div className="car-two">
      <section className="panel" aria-label="Read on the tacked bar">
        <header className="panel-head">
          <h2>{label}, as it stands</h2>
          <p className="quiet">
            Read one to three places on it: a height, out from the centre plane, a tape to a point or across.
            What is not read is taken as wanted.
          </p>
          {!isTacked && (
            <div className="row">
              <button type="button" onClick={() => act.run(setProgress(id, "tacked"))}>
                It is tacked
              </button>
            </div>
          )}
        </header>
        <ReadingPad
          document={document}
          kinds={TACK_KINDS}
          onBars
          bars={bars}
          draft={draft}
          setDraft={setDraft}
          onKeep={keep}
        />
        <ReadingList document={document} path={path} fits={fits} unknown="being figured…" />
      </section>
      <section
        className="panel"
        aria-label="What it changes"
        aria-live="polite"
        aria-busy={told ? !told.isFresh : true}
      >
        {judged === undefined && <p className="quiet">Keep a reading, and here stands what it changes.</p>}
        {judged === "none" && (
          <p className="notice wrong">
            No bar near the one wanted gives such readings. Look at their units, and at which side the tape
            lay on.
          </p>
        )}
        {found && (
          <>
            <p className="verdict">{says}</p>
            <Changed after={found.after} document={document} write={write} />
            <div className="row">
              {isKept ? (
                <p className="kept-so">All cards go by this.</p>
              ) : (
                <button type="button" className="main" onClick={goByIt}>
                  Go by it: figure all that hangs on it anew
                </button>
              )}
              {answer?.kept && (
                <button type="button" onClick={() => act.run(forgetAsBuilt(id, `${label} as planned again`))}>
                  Back to the plan
                </button>
              )}
            </div>
          </>
        )}
        {judged === undefined && answer?.kept && (
          <div className="row">
            <button type="button" onClick={() => act.run(forgetAsBuilt(id, `${label} as planned again`))}>
              Back to the plan
            </button>
          </div>
        )}
      </section>
    </div>
  );
}

/** Bars to which a tape can run because they stand. */
const tackedBars = (document: JobDocument): readonly string[] =>
  entries(thingsOf(document, "bar")).flatMap(([id, bar]) =>
    ["tacked", "welded"].includes(String(at(bar, ["progress"]))) ? [id] : [],
  );

const placeName = (i: number, of: number): string =>
  i === 0 ? "End A" : i === of - 1 ? "End B" : `The corner of bend ${i}`;
