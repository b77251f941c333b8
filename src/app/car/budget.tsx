import { useEffect, useMemo, useRef, useState } from "react";
import { sayScatter, saySource, sayStep } from "../../words/index.ts";
import { type LongAnswer, type LongRun, type Progress, runLong } from "../compute/index.ts";
import { calledOf, type JobDocument, namesIn } from "../document/index.ts";
import { writeIn } from "../stations/write.ts";
import { useActions, useApp } from "../use-app.ts";

type Budget = LongAnswer<"errors">;

/** What every bar may be off by, which step or place matters most, and what to leave over; beside the page, to be stopped. */
export function Budget({ document }: { readonly document: JobDocument }) {
  const act = useActions();
  const show = useApp((s) => s.show);
  const inHand = useApp((s) => s.inHand);
  const results = useApp((s) => s.results);
  const write = useMemo(() => writeIn(show), [show]);
  const running = useRef<LongRun<"errors">>(undefined);
  const [progress, setProgress] = useState<Progress>();
  const [said, setSaid] = useState("");
  const [found, setFound] = useState<{ readonly of: JobDocument; readonly budget: Budget }>();
  useEffect(() => () => running.current?.stop(), []);

  async function figure(): Promise<void> {
    setSaid("");
    setProgress({ share: 0, at: "the job" });
    const run = runLong("errors", document, setProgress);
    running.current = run;
    try {
      const budget = await run.done;
      if (budget) setFound({ of: document, budget });
      else setSaid("Stopped.");
    } catch (error) {
      setSaid(`Not figured: ${error instanceof Error ? error.message : String(error)}.`);
    }
    setProgress(undefined);
  }

  const bars = useMemo(() => {
    const list = [...(found?.budget.bars ?? [])].sort((a, b) => b.made.within - a.made.within);
    return [...list.filter((b) => b.id === inHand), ...list.filter((b) => b.id !== inHand)];
  }, [found, inHand]);

  return (
    <section className="panel budget" aria-label="What each bar may be off by">
      <header className="panel-head">
        <h2>What each bar may be off by</h2>
        <p className="quiet">
          From what marks, bends, turns and dies of this shop scatter by, and from how surely the places were
          measured. End A held where it belongs.
        </p>
      </header>
      {progress ? (
        <div className="running" role="status">
          <p>
            {Math.round(progress.share * 100)} %: {progress.at}
          </p>
          <progress value={progress.share} max={1} aria-label="How far it has come" />
          <button type="button" onClick={() => running.current?.stop()}>
            Stop
          </button>
        </div>
      ) : (
        <div className="row">
          <button type="button" className="main" onClick={() => void figure()}>
            {found ? "Figure it anew" : "Figure it"}
          </button>
        </div>
      )}
      {said !== "" && <p role="status">{said}</p>}
      {found && found.of !== document && <p className="notice">The job has changed since: figure it anew.</p>}
      <ol className="budget-list">
        {bars.map((b) => {
          const bar = results.bars.get(b.id);
          const far = bar?.bar.seat.B.kind === "plate" ? "the foot" : "end B";
          const [first] = b.made.steps;
          return (
            <li key={b.id} className={b.id === inHand ? "in-hand" : undefined}>
              <button type="button" className="budget-name" onClick={() => act.take(b.id)}>
                {calledOf(document, "bar", b.id)}
              </button>
              <p>
                <strong>{sentence(sayScatter(b.made, found!.budget.confidence, far, write))}</strong>
              </p>
              {first && b.made.steps.length > 1 && <p>{sentence(sayStep(first, far, write))}</p>}
              {b.wanted && b.wanted.length > 0.05 && (
                <p>
                  Its length is sure to ± {write.length(b.wanted.length)}.
                  {b.wanted.source && ` ${sentence(saySource(b.wanted.source, write, namesIn(document)))}`}
                </p>
              )}
              <p>
                Leave {write.length(b.made.trim.A)} over at A or {write.length(b.made.trim.B)} at B
                {bar && ` (now ${write.length(bar.bar.trim.A)} and ${write.length(bar.bar.trim.B)})`}.
              </p>
            </li>
          );
        })}
      </ol>
    </section>
  );
}

const sentence = (said: string): string => `${said[0]!.toUpperCase()}${said.slice(1)}.`;
