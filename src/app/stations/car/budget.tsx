import { useEffect, useMemo, useRef, useState } from "react";
import {
  ERRORS,
  EXPLAIN_ERROR,
  NO_BARS,
  sayScatter,
  saySource,
  sayStep,
  sentence,
} from "../../../words/index.ts";
import { classes, NoBars, parts, writeIn } from "../../kit/index.ts";
import { type LongAnswer, type LongRun, type Progress, runLong } from "../../model/compute/index.ts";
import { calledOf, type JobDocument, namesIn, thingsOf } from "../../model/document/index.ts";
import { useActions, useApp } from "../../model/state/index.ts";
import styles from "./budget.module.css";

type Budget = LongAnswer<"errors">;

/** What every bar may be off by, which step or place matters most, and which allowance that asks for; beside the page, to be stopped. */
export function Budget({ document }: { readonly document: JobDocument }) {
  const act = useActions();
  const show = useApp((s) => s.show);
  const inHand = useApp((s) => s.inHand);
  const results = useApp((s) => s.results);
  const write = useMemo(() => writeIn(show), [show]);
  const running = useRef<LongRun<"errors">>(undefined);
  const [progress, setProgress] = useState<Progress>();
  const [status, setStatus] = useState("");
  const [found, setFound] = useState<{ readonly of: JobDocument; readonly budget: Budget }>();
  useEffect(() => () => running.current?.stop(), []);

  async function calculate(): Promise<void> {
    setStatus("");
    setProgress({ share: 0, at: ERRORS.begin });
    const run = runLong("errors", document, setProgress);
    running.current = run;
    try {
      const budget = await run.done;
      if (budget) setFound({ of: document, budget });
      else setStatus(ERRORS.stopped);
    } catch (error) {
      setStatus(ERRORS.failed(error instanceof Error ? error.message : String(error)));
    }
    setProgress(undefined);
  }

  const bars = useMemo(() => {
    const list = [...(found?.budget.bars ?? [])].sort((a, b) => b.made.within - a.made.within);
    return [...list.filter((b) => b.id === inHand), ...list.filter((b) => b.id !== inHand)];
  }, [found, inHand]);

  if (Object.keys(thingsOf(document, "bar")).length === 0)
    return (
      <section className={classes(parts.panel, styles.budget)} aria-label={ERRORS.title}>
        <NoBars why={NO_BARS.errors} />
      </section>
    );
  return (
    <section className={classes(parts.panel, styles.budget)} aria-label={ERRORS.title}>
      <header className={parts.panelHead}>
        <h2>{ERRORS.title}</h2>
        <p className={parts.quiet}>
          {ERRORS.intro} {EXPLAIN_ERROR}
        </p>
      </header>
      {progress ? (
        <div className={styles.running} role="status">
          <p>{ERRORS.progress(progress.share, progress.at)}</p>
          <progress value={progress.share} max={1} aria-label={ERRORS.bar} />
          <button type="button" onClick={() => running.current?.stop()}>
            {ERRORS.stop}
          </button>
        </div>
      ) : (
        <div className={parts.row}>
          <button type="button" className={parts.main} onClick={() => void calculate()}>
            {found ? ERRORS.recalculate : ERRORS.calculate}
          </button>
        </div>
      )}
      {status !== "" && <p role="status">{status}</p>}
      {found && found.of !== document && <p className={parts.notice}>{ERRORS.changed}</p>}
      <ol className={styles.list}>
        {found &&
          bars.map((b) => {
            const bar = results.bars.get(b.id);
            const far = bar?.bar.seat.B.kind === "plate" ? ERRORS.foot : ERRORS.endB;
            const [first] = b.made.steps;
            return (
              <li key={b.id} className={b.id === inHand ? `${styles.bar} ${styles.inHand}` : styles.bar}>
                <button type="button" className={styles.name} onClick={() => act.take(b.id)}>
                  {calledOf(document, "bar", b.id)}
                </button>
                <p>
                  <strong>{sentence(sayScatter(b.made, found.budget.confidence, far, write))}</strong>
                </p>
                {first && b.made.steps.length > 1 && <p>{sentence(sayStep(first, far, write))}</p>}
                {b.wanted && b.wanted.length > 0.05 && (
                  <p>
                    {ERRORS.ofLength(write.length(b.wanted.length))}
                    {b.wanted.source && ` ${sentence(saySource(b.wanted.source, write, namesIn(document)))}`}
                  </p>
                )}
                <p>
                  {ERRORS.allow(write.length(b.made.trim.A), write.length(b.made.trim.B))}
                  {bar && ERRORS.now(write.length(bar.bar.trim.A), write.length(bar.bar.trim.B))}.
                </p>
              </li>
            );
          })}
      </ol>
    </section>
  );
}
