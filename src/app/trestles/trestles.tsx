import "../shell/trestles.css";
import { useMemo, useState } from "react";
import { howBent } from "../../cards/how-bent.ts";
import { asRead, type Fits, sayVerdict, verdictWords } from "../../words/index.ts";
import { Changed } from "../car/changed.tsx";
import { keptAs } from "../car/kept.ts";
import { LiesFigure } from "../car/lies.tsx";
import { ReadingList } from "../car/reading-list.tsx";
import { saySlip } from "../car/words.ts";
import {
  addReading,
  at,
  calledOf,
  forgetAsBuilt,
  type JobDocument,
  type Json,
  keepAsBuilt,
  setProgress,
} from "../document/index.ts";
import { useAwake } from "../shell/device.ts";
import { HandOut } from "../stations/hand-out.tsx";
import { TakeOne } from "../stations/take-one.tsx";
import { writeIn } from "../stations/write.ts";
import { Caution, Decides } from "../ui/caution.tsx";
import { Choose, Dialog } from "../ui/dialog.tsx";
import { LengthPad, NumberPad } from "../ui/keypad.tsx";
import { useAnswer } from "../use-answer.ts";
import { useActions, useApp, useAppItself } from "../use-app.ts";
import {
  type BentDraft,
  bentDrafts,
  bentJson,
  draftOfJson,
  draftOfReading,
  sayBentDraft,
  valueRead,
  wantedReads,
} from "./bent-kinds.ts";
import { landsWords } from "./lands.ts";
import { Really } from "./really.tsx";

/** Is what I bent what I wanted? */
export function Trestles() {
  const id = useApp((s) => s.inHand);
  const document = useApp((s) => s.job?.document);
  useAwake();
  if (id === null || !document) return <TakeOne question="which bar was bent?" />;
  return <Bent key={id} id={id} document={document} />;
}

function Bent({ id, document }: { readonly id: string; readonly document: JobDocument }) {
  const { computer } = useAppItself();
  const act = useActions();
  const show = useApp((s) => s.show);
  const results = useApp((s) => s.results);
  const write = useMemo(() => writeIn(show), [show]);
  const result = results.bars.get(id);
  const told = useAnswer(
    "trestles",
    useMemo(() => ({ bar: id }), [id]),
  );
  const path = useMemo(() => ["made", id, "bent"], [id]);
  const [asked, setAsked] = useState<BentDraft>();
  const [others, setOthers] = useState(false);
  const [prints, setPrints] = useState(false);
  const label = calledOf(document, "bar", id);
  const answer = told?.answer;
  const judged = answer?.judged === "none" ? undefined : answer?.judged;
  const fits = useMemo(() => {
    const out = new Map<number, Fits>();
    for (const { index, why } of answer?.wrong ?? [])
      out.set(index, { ok: false, says: `does not count: ${why}` });
    for (const slip of answer?.slipped ?? [])
      out.set(slip.index, { ok: false, says: saySlip(slip, write.length) });
    answer?.counted.forEach((index, k) => {
      const r = judged?.bent.readings[k];
      if (!r) return;
      const bad = judged?.bent.suspect === k;
      out.set(index, {
        ok: !bad,
        says: bad
          ? "read it once more: a slip of the tape or of the bender, far from what this shop's work scatters by"
          : sayWithin(Math.abs(r.normalized)),
      });
    });
    return out;
  }, [answer, judged, write]);
  if (!result) return <TakeOne question="which bar was bent?" />;
  const numbers = result.bend.bends.map((b) => b.n);
  const bends = numbers.length;
  const builtAs = at(document, ["asBuilt", id]) !== undefined;

  function keep(value: Json): void {
    if (!asked) return;
    act.run(addReading(path, bentJson(asked, value), `${label}: read ${sayBentDraft(asked).toLowerCase()}`));
    setAsked(undefined);
  }

  function goByIt(): void {
    if (!judged?.placed || !judged.after) return;
    const why = `${label} was bent otherwise`;
    const stale = [...judged.after.stale, ...judged.after.cut].map((c) => {
      const blank = results.bars.get(c.id)?.bend.blank;
      return { bar: c.id, why, ...(blank === undefined ? {} : { blank }) };
    });
    act.run(keepAsBuilt({ [id]: judged.placed }, stale, `${label} as bent`));
  }

  const { verdict } = judged ?? {};
  // the large sentence is what to do; what else would do stands below it
  const { main, or: instead } = verdict ? verdictWords(verdict, write) : { main: "" };
  const or = instead === undefined ? undefined : `or ${instead}`;
  const lands = verdict?.kind === "good" || verdict?.kind === "moved";
  const verdicts = verdict ? [verdict, ...(judged?.others ?? []).map((m) => m.verdict)] : [];
  const forces = verdicts.some((v) => v.spring !== undefined);
  const eased = verdicts.some((v) => v.kind === "ease");
  const isKept = builtAs && judged?.placed !== undefined && keptAs(document, id, judged.placed.path);
  const shown = asked ?? (answer?.telling[0] ? draftOfReading(answer.telling[0].reading) : undefined);
  const progress = at(document, ["bars", id, "progress"]) ?? "laid out";

  return (
    <div className="trestles">
      <header className="stage-head">
        <h2>{label}, on the trestles</h2>
        <p>{bends === 0 ? "a straight bar" : `${bends} bend${bends === 1 ? "" : "s"}, ends still as sawn`}</p>
        {(progress === "laid out" || progress === "sawn") && bends > 0 && (
          <button type="button" onClick={() => act.run(setProgress(id, "bent"))}>
            It is bent
          </button>
        )}
        <button type="button" onClick={() => setPrints(true)}>
          Print or save
        </button>
      </header>
      {bends === 0 ? (
        <p className="wait">
          Nothing to read here: a straight bar is what it was sawn to. Its ends are cut at the notcher.
        </p>
      ) : (
        <div className="car-two">
          <section
            className="told"
            aria-label="The verdict"
            aria-live="polite"
            aria-busy={told ? !told.isFresh : true}
          >
            {answer?.judged === "none" && (
              <p className="notice wrong">
                No bar near the one wanted gives such readings. Look at their units, and at which bar lies
                there.
              </p>
            )}
            {verdict && (
              <p className={`verdict ${lands ? "" : "off"}`}>
                {!lands && <span aria-hidden="true">⚠ </span>}
                {sentence(main)}
              </p>
            )}
            {or !== undefined && <p>{sentence(or)}</p>}
            {(forces || eased) && <Decides force={forces} />}
            <div className="row">
              {lands && !isKept && (
                <button type="button" className="main" onClick={goByIt}>
                  Go by it: figure its ends for this place
                </button>
              )}
              {isKept && (
                <>
                  <p className="kept-so">Its cuts go by the bar as bent.</p>
                  <button type="button" className="main" onClick={() => act.goTo("notcher")}>
                    To the notcher
                  </button>
                </>
              )}
              {builtAs && (
                <button type="button" onClick={() => act.run(forgetAsBuilt(id, `${label} as planned again`))}>
                  Back to the plan
                </button>
              )}
            </div>
          </section>
          <section className="panel" aria-label="Read on the bent bar">
            <h3>{answer && answer.counted.length > 0 ? "Would tell more" : "The few readings that tell"}</h3>
            {answer && answer.telling.length === 0 && (
              <p className="quiet">No other reading would tell much more.</p>
            )}
            <ol className="telling">
              {answer?.telling.map((t) => {
                const draft = draftOfReading(t.reading);
                return (
                  <li key={sayBentDraft(draft)}>
                    <button type="button" className="choice" onClick={() => setAsked(draft)}>
                      <span>{sayBentDraft(draft)}</span>
                      <small>wanted {wantedReads(t, write)}</small>
                    </button>
                  </li>
                );
              })}
            </ol>
            <div className="row">
              <button type="button" onClick={() => setOthers(true)}>
                Another reading
              </button>
            </div>
            {shown && (
              <LiesFigure
                picture={howBent(shown.what, "end" in shown ? shown.end : "B")}
                label={`How it is read: ${sayBentDraft(shown)}`}
              />
            )}
            <ReadingList
              document={document}
              path={path}
              fits={fits}
              unknown="being figured…"
              say={(reading) => {
                const draft = draftOfJson(reading);
                const value = valueRead(reading);
                return {
                  words: draft ? sayBentDraft(draft) : "",
                  size: draft?.what === "angle" ? `${String(value)}°` : asRead(value, "tape"),
                };
              }}
            />
          </section>
          <section className="panel" aria-label="What it really is">
            {answer?.judged === undefined && (
              <p className="quiet">
                Read one of these, and here stands what the bar really is and what to do with it.
              </p>
            )}
            {judged && verdict && answer && (
              <>
                <p>
                  With end {result.bar.fromEnd} held as wanted, the other end is{" "}
                  {write.length(judged.freeEnd)} off.
                </p>
                {lands && verdict.placed && (
                  <ul className="lands">
                    {landsWords(verdict.placed, write).map((says) => (
                      <li key={says}>{says}</li>
                    ))}
                  </ul>
                )}
                {lands && judged.after && !isKept && (
                  <Changed after={judged.after} document={document} write={write} />
                )}
                <Really bent={judged.bent} wanted={answer.wanted} write={write} />
                {judged.others.length > 0 && (
                  <section className="moved" aria-label="What else it could become">
                    <h3>It could become another bar</h3>
                    <ul>
                      {judged.others.map((m) => (
                        <li key={`${m.id} ${m.reversed}`}>
                          <button type="button" onClick={() => act.take(m.id)}>
                            <span>
                              {calledOf(document, "bar", m.id)}
                              {m.reversed && ", turned end for end"}
                            </span>
                            <span className="numbers">{sayVerdict(m.verdict, write)}</span>
                          </button>
                        </li>
                      ))}
                    </ul>
                  </section>
                )}
              </>
            )}
          </section>
        </div>
      )}
      <Caution steps={["lifting"]} force={forces} />
      {asked && asked.what !== "angle" && (
        <LengthPad
          title={sayBentDraft(asked)}
          value={undefined}
          unit={show.length}
          write={write.length}
          onClose={() => setAsked(undefined)}
          onSet={(value) => value !== undefined && keep(value)}
        />
      )}
      {asked?.what === "angle" && (
        <NumberPad
          title={`${sayBentDraft(asked)}, as the finder reads on both legs`}
          value={undefined}
          least={0}
          most={180}
          onClose={() => setAsked(undefined)}
          onSet={keep}
        />
      )}
      {others && (
        <Choose
          title="Another reading"
          options={bentDrafts(numbers, result.bar.fromEnd).map((d, i) => [String(i), sayBentDraft(d)])}
          onClose={() => setOthers(false)}
          onPick={(i) => {
            setOthers(false);
            setAsked(bentDrafts(numbers, result.bar.fromEnd)[Number(i)]);
          }}
        />
      )}
      {prints && (
        <Dialog title="Print or save" onClose={() => setPrints(false)}>
          <HandOut
            computer={computer}
            cards={[
              {
                says: "What to read, to fill in",
                name: `${id}-measuring-plan`,
                request: { card: "measuring", bar: id },
              },
              { says: "Reading list", name: "readings", request: { card: "readings" } },
            ]}
          />
        </Dialog>
      )}
    </div>
  );
}

const sayWithin = (times: number): string =>
  times <= 2 ? "as this shop's work goes" : `${times.toFixed(1)} times what this shop's work scatters by`;

const sentence = (said: string): string => `${said[0]!.toUpperCase()}${said.slice(1)}.`;
