import { useMemo, useState } from "react";
import type { Fits } from "../../words/index.ts";
import {
  addReading,
  at,
  calledOf,
  entries,
  forgetAsBuilt,
  type JobDocument,
  type Json,
  keepAsBuilt,
  setProgress,
  thingsOf,
} from "../document/index.ts";
import { TakeOne } from "../stations/take-one.tsx";
import { type Write, writeIn } from "../stations/write.ts";
import { useAnswer } from "../use-answer.ts";
import { useActions, useApp } from "../use-app.ts";
import { Changed } from "./changed.tsx";
import { type Draft, emptyDraft, TACK_KINDS, tackedReading } from "./draft.ts";
import { keptAs } from "./kept.ts";
import { ReadingList } from "./reading-list.tsx";
import { ReadingPad } from "./reading-pad.tsx";
import { readName, saySlip } from "./words.ts";

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
  const kept = at(document, path);
  const sizes = useMemo(() => (Array.isArray(kept) ? kept.map((r: Json) => at(r, ["what"])) : []), [kept]);
  const fits = useMemo(() => {
    const out = new Map<number, Fits>();
    if (!answer) return out;
    for (const i of answer.waiting) out.set(i, { ok: true, says: "waits: its point has no place yet" });
    for (const slip of answer.slipped) out.set(slip.index, { ok: false, says: saySlip(slip, write.length) });
    answer.counted.forEach((index, k) => {
      const r = found?.found.readings[k];
      if (!r) return;
      const suspect = found?.found.suspect === k;
      out.set(index, {
        ok: !suspect,
        says: `${sayOff(r.read - answer.planned[k]!, sizes[index], write)}${suspect ? `; read it once more: what this shop scatters by allows about ${write.length(r.computed)}` : ""}`,
      });
    });
    return out;
  }, [answer, found, sizes, write]);
  const bars = useMemo(() => [id, ...tackedBars(document).filter((b) => b !== id)], [id, document]);
  if (!bar) return <TakeOne question="which one was tacked?" />;

  function keep(): void {
    const reading = tackedReading(draft);
    if (!reading) return;
    act.run(addReading(path, reading, `${label}: ${readName(draft, document)}`));
    const { value: _, ...rest } = draft;
    setDraft(rest);
  }

  const stands = found?.found.bars[0];
  // told by the reading that is farthest from the plan: that is what the shop saw
  const offs = (answer?.planned ?? []).map((v, k) => (found?.found.readings[k]?.read ?? v) - v);
  const most = greatest(offs.map(Math.abs));
  const off = offs[most] ?? 0;
  const says = `${label}: ${sayOff(off, sizes[answer?.counted[most] ?? -1], write)}.`;
  const isKept = found !== undefined && keptAs(document, id, found.path);

  function goByIt(): void {
    if (!found) return;
    const why = `${label}, ${sayOff(off, sizes[answer?.counted[most] ?? -1], write)}`;
    const stale = [...found.after.stale, ...found.after.cut].map((c) => {
      const blank = results.bars.get(c.id)?.bend.blank;
      return { bar: c.id, why, ...(blank === undefined ? {} : { blank }) };
    });
    act.run(keepAsBuilt(found.paths, stale, `${label} as it stands`));
  }

  return (
    <div className="car-two">
      <section
        className="told"
        aria-label="What it changes"
        aria-live="polite"
        aria-busy={told ? !told.isFresh : true}
      >
        {judged === "none" && (
          <p className="notice wrong">
            No bar near the one wanted gives such readings. Look at their units, and at which side the tape
            lay on.
          </p>
        )}
        {found && <p className="verdict">{says}</p>}
        <div className="row">
          {found && !isKept && (
            <button type="button" className="main" onClick={goByIt}>
              Go by it: figure all that hangs on it anew
            </button>
          )}
          {isKept && <p className="kept-so">All cards go by how it stands.</p>}
          {answer?.kept && (
            <button type="button" onClick={() => act.run(forgetAsBuilt(id, `${label} as planned again`))}>
              Back to the plan
            </button>
          )}
          {!isTacked && (
            <button type="button" onClick={() => act.run(setProgress(id, "tacked"))}>
              It is tacked
            </button>
          )}
        </div>
      </section>
      <section className="panel" aria-label="Read on the tacked bar">
        <header className="panel-head">
          <h2>{label}, as it stands</h2>
          <p className="quiet">
            Read one to three places on it: a height, out from the centre plane, a tape to a point or across.
            What is not read is taken as planned.
          </p>
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
      <section className="panel" aria-label="Cards">
        {judged === undefined && <p className="quiet">Keep a reading, and here stands what it changes.</p>}
        {found && !isKept && <Changed after={found.after} document={document} write={write} />}
        {stands && (
          <section aria-label="Where it stands">
            <h3>Where it stands, against the plan</h3>
            <dl className="place-of">
              {stands.moved.map((v, i) => (
                <div key={placeName(i, stands.moved.length)}>
                  <dt>{placeName(i, stands.moved.length)}</dt>
                  <dd>
                    <strong>{write.length(v)}</strong> ± {write.length(stands.sd[i]!)}
                  </dd>
                </div>
              ))}
            </dl>
          </section>
        )}
      </section>
    </div>
  );
}

/** How a reading differs from the plan: "4.0 mm higher than planned". */
function sayOff(off: number, what: Json | undefined, write: Write): string {
  if (Math.abs(off) < 0.05) return "as planned";
  const more = off > 0;
  const way =
    what === "height"
      ? more
        ? "higher"
        : "lower"
      : what === "fore"
        ? more
          ? "farther forward"
          : "farther back"
        : what === "out"
          ? more
            ? "farther left"
            : "farther right"
          : more
            ? "longer"
            : "shorter";
  return `${write.length(Math.abs(off))} ${way} than planned`;
}

/** Bars to which a tape can run because they stand. */
const tackedBars = (document: JobDocument): readonly string[] =>
  entries(thingsOf(document, "bar")).flatMap(([id, bar]) =>
    ["tacked", "welded"].includes(String(at(bar, ["progress"]))) ? [id] : [],
  );

const greatest = (list: readonly number[]): number => list.indexOf(Math.max(...list));

const placeName = (i: number, of: number): string =>
  i === 0 ? "end A" : i === of - 1 ? "end B" : `corner of bend ${i}`;
