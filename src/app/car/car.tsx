import "../shell/car.css";
import { useMemo, useState, useSyncExternalStore } from "react";
import { severityOf } from "../../core/findings/index.ts";
import type { Survey } from "../../core/survey/index.ts";
import {
  agreeWords,
  asRead,
  fitsOf,
  KINDS,
  leanWords,
  type Step,
  say,
  sayAdvice,
} from "../../words/index.ts";
import { addReading, at, type JobDocument, namesIn, strikeReading } from "../document/index.ts";
import { CAR_PART, useForce, WayIn } from "../order/index.ts";
import { useAwake } from "../shell/device.ts";
import { HandOut } from "../stations/hand-out.tsx";
import { writeIn } from "../stations/write.ts";
import { Caution } from "../ui/caution.tsx";
import { Dialog } from "../ui/dialog.tsx";
import { View } from "../ui/view.tsx";
import { useAnswer } from "../use-answer.ts";
import { useActions, useApp, useAppItself } from "../use-app.ts";
import type { ViewTap } from "../view/index.ts";
import { Budget } from "./budget.tsx";
import { carReading, type Draft, draftOf, emptyDraft, withPoint } from "./draft.ts";
import { barIds } from "./pick-end.tsx";
import { Points } from "./points.tsx";
import { ReadingList } from "./reading-list.tsx";
import { ReadingPad } from "./reading-pad.tsx";
import { Tacked } from "./tacked.tsx";
import { draftFrom, readName, sayReading } from "./words.ts";

const PARTS = [
  ["read", "Read"],
  ["points", "Points"],
  ["tacked", "Tacked"],
  ["sure", "How sure"],
  ["way", "Way in"],
] as const;
type Part = (typeof PARTS)[number][0];

/** What each part is done with care for; after a tack the next thing is welding. */
const AT_CAR: Readonly<Record<Part, readonly Step[]>> = {
  read: ["car on stands"],
  points: ["car on stands"],
  tacked: ["airbags", "tank", "fire watch"],
  sure: ["car on stands"],
  way: ["lifting", "open body"],
};

const NOTHING = {};
const READINGS = ["readings"];

/** What do I measure, where is it, does it sit right? */
export function Car() {
  const { computer } = useAppItself();
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const act = useActions();
  const part = useApp((s) => PARTS[s.steps[CAR_PART] ?? 0]?.[0] ?? "read");
  const setPart = (to: Part): void =>
    act.setStep(
      CAR_PART,
      PARTS.findIndex(([id]) => id === to),
    );
  const [draft, setDraft] = useState<Draft>(() => emptyDraft("tape"));
  const [prints, setPrints] = useState(false);
  const inHand = useApp((s) => s.inHand);
  const force = useForce(inHand);
  const told = useAnswer("survey", NOTHING);
  const survey = told?.answer;
  useAwake();
  if (!document) return null;

  function read(next: Draft): void {
    setDraft(next);
    setPart("read");
  }

  return (
    <div className="car">
      <header className="stage-head">
        <div className="pair car-parts" role="group" aria-label="At the car">
          {PARTS.map(([id, says]) => (
            <button key={id} type="button" aria-pressed={id === part} onClick={() => setPart(id)}>
              {says}
            </button>
          ))}
        </div>
        <button type="button" onClick={() => setPrints(true)}>
          Print or save
        </button>
      </header>
      {part === "read" && (
        <Read
          document={document}
          survey={survey}
          isFresh={told?.isFresh ?? false}
          draft={draft}
          setDraft={setDraft}
          write={write}
        />
      )}
      {part === "points" && (
        <div className="panel">
          <State survey={survey} onRead={read} />
          <Points document={document} survey={survey} onRead={read} />
        </div>
      )}
      {part === "tacked" && <Tacked document={document} />}
      {part === "sure" && <Budget document={document} />}
      {part === "way" && <WayIn />}
      <Caution steps={AT_CAR[part]} force={part === "way" && force} />
      {prints && (
        <Dialog title="Print or save" onClose={() => setPrints(false)}>
          <HandOut
            computer={computer}
            cards={[
              { says: "Reading list", name: "readings", request: { card: "readings" } },
              { says: "Measuring plan", name: "measuring-plan", request: { card: "measuring" } },
            ]}
          />
        </Dialog>
      )}
    </div>
  );
}

/** Findings that stand elsewhere here: beside the reading, beside the point, or in the sentence above. */
const SAID: ReadonlySet<string> = new Set([
  "survey-suspect",
  "survey-suspect-among",
  "survey-unit",
  "survey-undetermined",
  "survey-mirror",
  "survey-test",
  "survey-unchecked",
]);

/** Whether the readings agree, and the one to take next. */
function State({
  survey,
  onRead,
}: {
  readonly survey: Survey | undefined;
  readonly onRead: (draft: Draft) => void;
}) {
  const show = useApp((s) => s.show);
  const document = useApp((s) => s.job?.document);
  const act = useActions();
  const write = useMemo(() => writeIn(show), [show]);
  const fits = useMemo(() => (survey ? fitsOf(survey, write) : new Map<number, never>()), [survey, write]);
  if (!survey || !document) return null;
  const agree = agreeWords(survey);
  const { next } = survey;
  const other = survey.findings.filter((f) => !SAID.has(f.code));
  return (
    <section className="car-state" aria-label="Whether it agrees" aria-live="polite">
      {(!survey.converged || survey.readings.length > 0) && (
        <p className={agree.ok ? "agree" : "agree off"}>
          {!agree.ok && <span aria-hidden="true">⚠ </span>}
          {agree.says}
        </p>
      )}
      {survey.suspects.map(({ index }) => {
        const reading = at(document ?? null, ["readings", index]);
        const draft = draftOf(reading);
        const why = fits.get(index)?.says ?? "";
        if (!draft || at(reading ?? null, ["struck"]) === true) return null;
        return (
          <div key={index} className="suspect">
            <p>
              <strong>
                {sayReading(draft, document!)} {asRead(draft.value, draft.kind)}
              </strong>{" "}
              {why}
            </p>
            <button
              type="button"
              aria-label={`Strike it: ${sayReading(draft, document!)}`}
              onClick={() => act.run(strikeReading(["readings"], index, true, "does not fit the others"))}
            >
              Strike it
            </button>
          </div>
        );
      })}
      {leanWords(survey.cleaned, write).map((says) => (
        <p key={says}>{says}</p>
      ))}
      {next && (
        <div className="next-best">
          <p>
            Read next: <strong>{sayAdvice(next.reading)}</strong>. {next.point} goes from ±{" "}
            {write.fine(next.before)} to ± {write.fine(next.after)}.
          </p>
          <button type="button" onClick={() => onRead(draftFrom(next.reading))}>
            Read it
          </button>
        </div>
      )}
      {other.length > 0 && (
        <ul className="findings">
          {other.map((f) => (
            <li key={`${f.code} ${f.place} ${JSON.stringify(f.values)}`} className={severityOf(f)}>
              {say(f, write, namesIn(document))}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** The picture takes room that a phone has not. */
const roomy = matchMedia("(min-width: 900px)");
const useRoomy = (): boolean =>
  useSyncExternalStore(
    (changed) => {
      roomy.addEventListener("change", changed);
      return () => roomy.removeEventListener("change", changed);
    },
    () => roomy.matches,
  );

function Read(props: {
  readonly document: JobDocument;
  readonly survey: Survey | undefined;
  readonly isFresh: boolean;
  readonly draft: Draft;
  readonly setDraft: (draft: Draft) => void;
  readonly write: ReturnType<typeof writeIn>;
}) {
  const { document, survey, draft, setDraft, write } = props;
  const act = useActions();
  const job = useApp((s) => s.job);
  const results = useApp((s) => s.results);
  const inHand = useApp((s) => s.inHand);
  const show = useApp((s) => s.show);
  const hasView = useRoomy();
  const [waits, setWaits] = useState<0 | 1>();
  const [tapped, setTapped] = useState<{ end: 0 | 1; bar: string; along: number }>();
  const fits = useMemo(() => (survey ? fitsOf(survey, write) : new Map<number, never>()), [survey, write]);
  const bars = useMemo(() => barIds(document).filter((id) => results.bars.has(id)), [document, results.bars]);
  const points = useMemo(() => draft.ends.flatMap((e) => (e?.is === "point" ? [e.id] : [])), [draft.ends]);

  function keep(): void {
    const reading = carReading(draft);
    if (!reading) return;
    if (!act.run(addReading(["readings"], reading, readName(draft, document))).ok) return;
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
    <div className="car-two">
      <section className="panel" aria-label="Take a reading">
        <ReadingPad
          document={document}
          kinds={KINDS}
          onBars={false}
          bars={bars}
          draft={draft}
          setDraft={setDraft}
          {...(hasView ? { wait: setWaits } : {})}
          {...(tapped ? { tapped } : {})}
          onTaken={() => setTapped(undefined)}
          onKeep={keep}
        />
      </section>
      <section className="car-seen" aria-label="What was read">
        {hasView && (
          <div className="car-view">
            <View
              small
              results={results}
              job={job?.read.ok ? job.read.job : undefined}
              inHand={inHand}
              points={points}
              onTap={tap}
              onPoint={tapPoint}
              names="always"
              label="The car as far as it is known"
              unit={show.length}
              write={write.length}
            />
            {waits !== undefined && (
              <div className="waiting" role="status">
                <p>
                  {draft.kind === "tape"
                    ? "Tap the point or the bar on which the tape was held."
                    : "Tap the point."}
                </p>
                <button type="button" onClick={() => setWaits(undefined)}>
                  Leave it
                </button>
              </div>
            )}
          </div>
        )}
        <div className="car-list" aria-busy={!props.isFresh}>
          <State survey={survey} onRead={setDraft} />
          <ReadingList
            document={document}
            path={READINGS}
            fits={fits}
            unknown={
              props.isFresh
                ? "not counted: it says nothing that is not said by the bar itself"
                : "being figured…"
            }
          />
        </div>
      </section>
    </div>
  );
}
