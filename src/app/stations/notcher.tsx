import { useEffect, useMemo, useState } from "react";
import type { End } from "../../core/job/index.ts";
import type { Document } from "../../draw/types.ts";
import { StaleCard } from "../car/stale-card.tsx";
import type { Computer } from "../compute/index.ts";
import { calledOf, setProgress } from "../document/index.ts";
import { issuing } from "../shell/issue.ts";
import { paperNow } from "../shell/print.ts";
import { Caution } from "../ui/caution.tsx";
import { Dialog } from "../ui/dialog.tsx";
import { Picture } from "../ui/picture.tsx";
import { useActions, useApp, useAppItself } from "../use-app.ts";
import { ClockPicture } from "./clock-picture.tsx";
import { GapPicture } from "./gap-picture.tsx";
import { GapsFelt } from "./gaps-felt.tsx";
import { HandOut } from "./hand-out.tsx";
import { CAUTIONED, notcherSteps, standing } from "./notcher-steps.ts";
import { Stage } from "./stage.tsx";
import { TakeOne } from "./take-one.tsx";
import { useNotches } from "./use-notch.ts";
import { writeIn } from "./write.ts";

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
  const [feels, setFeels] = useState(false);
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
  if (id === null || !result) return <TakeOne question="which bar is notched?" />;
  if (!notches) return <p className="wait">Computing both ends…</p>;
  const key = `notcher ${id}`;
  const now = Math.min(done[key] ?? 0, steps.length - 1);
  const step = steps[now]!;
  const cope = result.copes[step.end];
  const saw = notches[step.end]?.saw;
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
          says: `${result.label} is notched`,
          do: () => {
            act.run(setProgress(id, "notched"));
            act.goTo("wall");
          },
        }}
        head={
          <header className="stage-head">
            <h2>
              {result.label}, end {step.end}
            </h2>
            <div className="pair" role="group" aria-label="Which end">
              {(["A", "B"] as const).map((end) => (
                <button
                  key={end}
                  type="button"
                  aria-pressed={step.end === end}
                  onClick={() => act.setStep(key, first(end))}
                >
                  End {end}
                </button>
              ))}
            </div>
            <button type="button" onClick={() => setPrints(true)}>
              Print or save
            </button>
            {cope.kind === "on" && saw && (
              <button type="button" onClick={() => setFeels(true)}>
                Gaps felt
              </button>
            )}
            <StaleCard id={id} />
          </header>
        }
        picture={
          step.kind === "wrap" ? (
            <Wrap computer={computer} bar={id} end={step.end} label={`Wrap of end ${step.end}`} />
          ) : step.kind === "fit" && saw && !notches[step.end]?.flush ? (
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
            ? together && <p className="together">{together}</p>
            : undefined
        }
      />
      {feels && document && notches[step.end] && (
        <GapsFelt
          bar={id}
          end={step.end}
          notch={notches[step.end]!}
          document={document}
          onClose={() => setFeels(false)}
        />
      )}
      {prints && (
        <Dialog title="Print or save" onClose={() => setPrints(false)} wide>
          <HandOut
            computer={computer}
            issue={issue}
            cards={[
              { says: "Notcher card", name: `${id}-notcher-card`, request: { card: "notcher", bar: id } },
              ...(["A", "B"] as const)
                .filter((end) => result.copes[end].kind !== "square")
                .map((end) => ({
                  says: `Wrap, end ${end}`,
                  name: `${id}-wrap-${end}`,
                  request: { card: "wrap", bar: id, end } as const,
                })),
            ]}
          />
          <Wrap computer={computer} bar={id} end={step.end} label={`Wrap of end ${step.end}`} />
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
    const tell = (found: Document | undefined): void => {
      if (!isOver) setCard(found ?? "none");
    };
    computer.card({ card: "wrap", bar, end, paper: paperNow() }).then(tell, () => tell(undefined));
    return () => {
      isOver = true;
    };
  }, [computer, bar, end]);
  if (card === undefined) return <p className="wait">The wrap is being drawn…</p>;
  if (card === "none") return <p className="wait">This end needs no wrap.</p>;
  const [sheet] = card.sheets;
  return sheet ? <Picture sheet={sheet} label={`${props.label}; true to size on paper only`} /> : null;
}
