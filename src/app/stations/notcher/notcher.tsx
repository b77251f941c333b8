import { useEffect, useMemo, useState } from "react";
import type { End } from "../../../core/job/index.ts";
import type { Document } from "../../../draw/types.ts";
import { NOTCHER } from "../../../words/index.ts";
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
import type { Computer } from "../../model/compute/index.ts";
import { calledOf } from "../../model/document/index.ts";
import { useActions, useApp, useAppItself } from "../../model/state/index.ts";
import { CAUTIONED, notcherSteps, standing, useNotches } from "../../notch/index.ts";
import { ClockPicture } from "./clock-picture.tsx";
import { GapPicture } from "./gap-picture.tsx";
import { ReadGaps } from "./read-gaps.tsx";

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
  const [readsGaps, setReadsGaps] = useState(false);
  const write = useMemo(() => writeIn(show), [show]);
  const result = id === null ? undefined : results.bars.get(id);
  const notches = useNotches(computer, results, result);
  const limits = useMemo(() => {
    const job = read?.ok ? read.job : undefined;
    return { gap: job?.notcher.wrapBeyond ?? job?.shop.gap ?? 1 };
  }, [read]);
  const steps = useMemo(
    () =>
      result && notches && document
        ? (["A", "B"] as const).flatMap((end) =>
            notcherSteps(result, end, notches[end], limits, write, (b) => calledOf(document, "bar", b)),
          )
        : [],
    [result, notches, document, limits, write],
  );
  if (id === null || !result) return <TakeOne question={NOTCHER.question} />;
  if (!notches) return <p className={parts.wait}>{NOTCHER.computing}</p>;
  const key = `notcher ${id}`;
  const now = Math.min(done[key] ?? 0, steps.length - 1);
  const step = steps[now];
  if (!step) return null;
  const cope = result.copes[step.end];
  const notch = notches[step.end];
  const saw = notch?.saw;
  const together = standing(result, notches.A, notches.B, write);
  const first = (end: End): number => steps.findIndex((s) => s.end === end);

  return (
    <>
      <Stage
        steps={steps}
        at={now}
        go={(to) => {
          // the first step is done: this card is in use
          if (to > 0) void issue(id);
          act.setStep(key, to);
        }}
        caution={<Caution steps={CAUTIONED[step.kind]} />}
        finish={{
          says: NOTCHER.done(result.label),
          do: () => {
            act.markStep(id, "notched");
            act.goTo("wall");
          },
        }}
        head={
          <header className={parts.stageHead}>
            <h2>{NOTCHER.title(result.label, step.end)}</h2>
            <div className={parts.pair} role="group" aria-label={NOTCHER.which}>
              {(["A", "B"] as const).map((end) => (
                <button
                  key={end}
                  type="button"
                  aria-pressed={step.end === end}
                  onClick={() => act.setStep(key, first(end))}
                >
                  {NOTCHER.end(end)}
                </button>
              ))}
            </div>
            <button type="button" onClick={() => setPrints(true)}>
              {NOTCHER.print}
            </button>
            {cope.kind === "on" && saw && (
              <button type="button" onClick={() => setReadsGaps(true)}>
                {NOTCHER.gaps}
              </button>
            )}
          </header>
        }
        picture={
          step.kind === "wrap" ? (
            <Wrap computer={computer} bar={id} end={step.end} label={NOTCHER.wrapPicture(step.end)} />
          ) : step.kind === "fit" && saw && !notch?.flush ? (
            <GapPicture saw={saw} accepted={limits.gap} write={write} />
          ) : (
            <ClockPicture
              cope={cope}
              clock={step.clock ?? saw?.cut.clock}
              offset={saw?.cut.offset}
              write={write}
            />
          )
        }
        more={
          step.kind === "turn" || step.kind === "fit"
            ? together && <p className={parts.together}>{together}</p>
            : undefined
        }
      />
      {readsGaps && document && notch && (
        <ReadGaps
          bar={id}
          end={step.end}
          notch={notch}
          document={document}
          onClose={() => setReadsGaps(false)}
        />
      )}
      {prints && (
        <Dialog title={NOTCHER.print} onClose={() => setPrints(false)} wide>
          <HandOut
            computer={computer}
            issue={issue}
            cards={[
              { says: NOTCHER.card, name: `${id}-notcher-card`, request: { card: "notcher", bar: id } },
              ...(["A", "B"] as const)
                .filter((end) => result.copes[end].kind !== "square")
                .map((end) => ({
                  says: NOTCHER.wrap(end),
                  name: `${id}-wrap-${end}`,
                  request: { card: "wrap", bar: id, end } as const,
                })),
            ]}
          />
          <Wrap computer={computer} bar={id} end={step.end} label={NOTCHER.wrapPicture(step.end)} />
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
