import { Suspense, useEffect, useMemo, useState } from "react";
import type { End } from "../../../core/job/index.ts";
import { notchFrom } from "../../../core/plan/index.ts";
import type { Document } from "../../../draw/types.ts";
import { AS_MADE, NOTCHER, notchLines } from "../../../words/index.ts";
import {
  Caution,
  Dialog,
  HandOut,
  issuing,
  Picture,
  paperNow,
  parts,
  Stage,
  TakeOne,
  writeIn,
} from "../../kit/index.ts";
import { MadeNotes, MakeAgain, otherCard, Record, RecordPage, useMade } from "../../made/index.ts";
import type { Computer } from "../../model/compute/index.ts";
import { calledOf } from "../../model/document/index.ts";
import { goToPage, useActions, useApp, useAppItself } from "../../model/state/index.ts";
import { CAUTIONED, notcherSteps, standing, useNotches } from "../../notch/index.ts";
import { LeadsOf } from "../../things/index.ts";
import { ClockPicture } from "./clock-picture.tsx";
import { GapPicture } from "./gap-picture.tsx";
import { ReadGaps } from "./read-gaps.tsx";

const ENDS = ["A", "B"] as const;

/** What do I cut on this end, and next? */
export function Notcher() {
  const app = useAppItself();
  const { computer } = app;
  const issue = issuing(app);
  const act = useActions();
  const id = useApp((s) => s.inHand);
  const results = useApp((s) => s.results);
  const document = useApp((s) => s.job?.document);
  const read = useApp((s) => s.job?.read);
  const show = useApp((s) => s.show);
  const done = useApp((s) => s.steps);
  const [prints, setPrints] = useState(false);
  const [viewed, setViewed] = useState<{ readonly bar: string; readonly end: End }>();
  const [readsGaps, setReadsGaps] = useState(false);
  const write = useMemo(() => writeIn(show), [show]);
  const result = id === null ? undefined : results.bars.get(id);
  const asPlanned = useNotches(computer, results, result);
  const limits = useMemo(() => {
    const job = read?.ok ? read.job : undefined;
    return { gap: job?.notcher.wrapBeyond ?? job?.shop.gap ?? 1 };
  }, [read]);
  const known = useMade(result);
  const extra = known?.made?.extra;
  const notches = useMemo(
    () =>
      asPlanned && {
        ...asPlanned,
        A: notchFrom(asPlanned.A, extra?.A ?? 0),
        B: notchFrom(asPlanned.B, extra?.B ?? 0),
      },
    [asPlanned, extra],
  );
  const all = useMemo(
    () =>
      result && notches && document
        ? ENDS.flatMap((end) =>
            notcherSteps(result, end, notches[end], limits, write, (b) => calledOf(document, "bar", b)),
          )
        : [],
    [result, notches, document, limits, write],
  );
  if (id === null || !result)
    return <TakeOne question={NOTCHER.question} next={["bent", "sawn", "laid out"]} />;
  if (!notches || !known) return <p className={parts.wait}>{NOTCHER.computing}</p>;
  const { made } = known;
  const isNotched = (end: End): boolean => made?.notched[end] !== undefined;
  // steps of an end that is notched are done
  const from = isNotched("A") ? all.filter((s) => s.end === "A").length : 0;
  const steps = all.filter((s) => !isNotched(s.end));
  const key = `notcher ${id}`;
  const now = Math.max(0, Math.min((done[key] ?? 0) - from, steps.length - 1));
  const step = steps[now];
  const asked = viewed?.bar === id ? viewed.end : undefined;
  const seen = asked !== undefined && isNotched(asked) ? asked : (step?.end ?? asked ?? "A");
  const notch = notches[seen];
  const first = (end: End): number => steps.findIndex((s) => s.end === end);
  const head = (
    <header className={parts.stageHead}>
      <h2>{NOTCHER.title(result.label, seen)}</h2>
      <div className={parts.pair} role="group" aria-label={NOTCHER.which}>
        {ENDS.map((end) => (
          <button
            key={end}
            type="button"
            aria-pressed={seen === end}
            onClick={() => {
              setViewed({ bar: id, end });
              if (!isNotched(end)) act.setStep(key, first(end) + from);
            }}
          >
            {NOTCHER.end(end)}
          </button>
        ))}
      </div>
      <button type="button" onClick={() => setPrints(true)}>
        {NOTCHER.print}
      </button>
      {result.copes[seen].kind === "on" && notch?.saw && (
        <button type="button" onClick={() => setReadsGaps(true)}>
          {NOTCHER.gaps}
        </button>
      )}
      {made && <MakeAgain id={id} />}
      <MadeNotes known={known} trim={result.bend.trim} write={write} />
    </header>
  );
  const together = standing(result, notches.A, notches.B, write);
  const record = made?.notched[seen];

  return (
    <>
      {record ? (
        <RecordPage
          head={head}
          says={AS_MADE.head.notched(seen)}
          foot={
            <button
              type="button"
              className={parts.main}
              onClick={() => (step ? setViewed({ bar: id, end: step.end }) : act.goTo("wall"))}
            >
              {step ? NOTCHER.toEnd(step.end) : NOTCHER.toWall}
            </button>
          }
        >
          <Record
            heading={AS_MADE.heading.notched(seen)}
            lines={notchLines(seen, record, write)}
            card={otherCard(record.made.card, made.card)}
          />
        </RecordPage>
      ) : step ? (
        <Stage
          steps={steps}
          at={now}
          go={(to) => {
            // the first step is done: this card is in use
            if (to > 0) void issue(id);
            act.setStep(key, to + from);
          }}
          caution={<Caution steps={CAUTIONED[step.kind]} />}
          finish={{
            says: NOTCHER.done(result.label),
            do: () => {
              act.markStep(id, "notched");
              act.goTo("wall");
            },
          }}
          head={head}
          picture={
            step.kind === "wrap" ? (
              <Wrap computer={computer} bar={id} end={step.end} label={NOTCHER.wrapPicture(step.end)} />
            ) : step.kind === "fit" && notch?.saw && !notch.flush ? (
              <GapPicture saw={notch.saw} accepted={limits.gap} write={write} />
            ) : (
              <ClockPicture
                cope={result.copes[step.end]}
                clock={step.clock ?? notch?.saw?.cut.clock}
                offset={notch?.saw?.cut.offset}
                write={write}
              />
            )
          }
          more={
            <>
              {(step.kind === "turn" || step.kind === "fit") && together && (
                <p className={parts.together}>{together}</p>
              )}
              <Suspense fallback={null}>
                <LeadsOf findings={notch?.findings ?? []} />
              </Suspense>
              {steps[now + 1]?.end !== step.end && steps.some((s) => s.end !== step.end) && (
                <button type="button" onClick={() => act.markStep(id, { notched: step.end })}>
                  {AS_MADE.markEnd(step.end)}
                </button>
              )}
            </>
          }
        />
      ) : null}
      {readsGaps && document && notch && (
        <ReadGaps bar={id} end={seen} notch={notch} document={document} onClose={() => setReadsGaps(false)} />
      )}
      {prints && (
        <Dialog title={NOTCHER.print} onClose={() => setPrints(false)} wide>
          <HandOut
            computer={computer}
            onMore={() => goToPage("print")}
            issue={issue}
            cards={[
              { says: NOTCHER.card, name: `${id}-notcher-card`, request: { card: "notcher", bar: id } },
              ...ENDS.filter((end) => result.copes[end].kind !== "square" && !isNotched(end)).map((end) => ({
                says: NOTCHER.wrap(end),
                name: `${id}-wrap-${end}`,
                request: { card: "wrap", bar: id, end } as const,
              })),
            ]}
          />
          {!record && <Wrap computer={computer} bar={id} end={seen} label={NOTCHER.wrapPicture(seen)} />}
        </Dialog>
      )}
    </>
  );
}

/** The wrap as it will print; a picture here, true to size on paper only. */
export function Wrap(props: {
  readonly computer: Computer;
  readonly bar: string;
  readonly end: End;
  readonly label: string;
}) {
  const { computer, bar, end } = props;
  const [card, setCard] = useState<Document | "none">();
  useEffect(() => {
    let isOver = false;
    const show = (found: Document | undefined): void => {
      if (!isOver) setCard(found ?? "none");
    };
    computer.card({ card: "wrap", bar, end, paper: paperNow() }).then(show, () => show(undefined));
    return () => {
      isOver = true;
    };
  }, [computer, bar, end]);
  if (card === undefined) return <p className={parts.wait}>{NOTCHER.drawing}</p>;
  if (card === "none") return <p className={parts.wait}>{NOTCHER.noWrap}</p>;
  const [sheet] = card.sheets;
  return sheet ? <Picture sheet={sheet} label={props.label} /> : null;
}
