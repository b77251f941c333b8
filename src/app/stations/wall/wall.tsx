import { lazy, Suspense, useMemo, useState } from "react";
import { WALL } from "../../../words/index.ts";
import { BarPanel, NewBar, nodeName, Things } from "../../bar-editor/index.ts";
import type { ViewTap } from "../../cage/index.ts";
import { View } from "../../cage/index.ts";
import { classes, parts, writeIn } from "../../kit/index.ts";
import { at, calledOf, setValues } from "../../model/document/index.ts";
import { useActions, useApp, useDiffers } from "../../model/state/index.ts";
import { Board, OrderLine, useStanding, WALL_TAGS } from "../../order/index.ts";
import { MadeChanged, MovedList } from "./moved-list.tsx";

// With a bar in hand only.
const Questions = lazy(async () => ({ default: (await import("./questions.tsx")).Questions }));

import styles from "./wall.module.css";

/** Where the bars run: the cage, and beside it the bar in hand in sentences. */
export function Wall() {
  const act = useActions();
  const job = useApp((s) => s.job);
  const results = useApp((s) => s.results);
  const inHand = useApp((s) => s.inHand);
  const show = useApp((s) => s.show);
  const hasTags = useApp((s) => (s.steps[WALL_TAGS] ?? 0) === 1);
  const stage = useStanding(inHand);
  const moves = useApp((s) => s.moves);
  const differs = useDiffers();
  const changed = useApp((s) => s.changed);
  const write = useMemo(() => writeIn(show), [show]);
  /** The end that waits for a tap on its new host. */
  const [waits, setWaits] = useState<{ readonly bar: string; readonly node: number }>();
  const [isNew, setNew] = useState(false);
  if (!job) return null;
  const { document } = job;
  const waiting = waits && waits.bar === inHand ? waits : undefined;

  function tap(id: string | null, where: ViewTap | null): void {
    if (!waiting) {
      act.take(id);
      return;
    }
    if (id === null || where === null || id === waiting.bar) return;
    const path = ["bars", waiting.bar, "path", waiting.node] as const;
    const also = at(document, [...path, "also"]);
    const keeps = Array.isArray(also) ? { also: also.filter((x) => x !== id) } : {};
    act.run(
      setValues(
        [[path, { on: id, along: Math.round(where.along), ...keeps }]],
        WALL.lands(
          calledOf(document, "bar", waiting.bar),
          nodeName(document, waiting.bar, waiting.node),
          calledOf(document, "bar", id),
        ),
      ),
    );
    setWaits(undefined);
  }

  return (
    <div className={classes(styles.wall, hasTags && styles.atOrder)}>
      <section className={styles.picture} aria-label={WALL.cage}>
        <View
          results={results}
          job={job.read.ok ? job.read.job : undefined}
          inHand={inHand}
          onTap={tap}
          label={WALL.picture(results.bars.size)}
          unit={show.length}
          write={write.length}
          names="asked"
          differs={differs}
          {...(hasTags ? { stage, small: true } : {})}
        />
        {hasTags && inHand !== null && (
          <p className={styles.when}>{WALL.when(calledOf(document, "bar", inHand))}</p>
        )}
        {waiting && (
          <div className={parts.waiting} role="status">
            <p>
              {WALL.tapHost(
                nodeName(document, waiting.bar, waiting.node),
                calledOf(document, "bar", waiting.bar),
              )}
            </p>
            <button type="button" data-escape onClick={() => setWaits(undefined)}>
              {WALL.cancel}
            </button>
          </div>
        )}
      </section>
      {hasTags ? (
        <Suspense fallback={<p className={parts.wait}>{WALL.opening}</p>}>
          <Board onClose={() => act.setStep(WALL_TAGS, 0)} />
        </Suspense>
      ) : (
        <section className={parts.panel} aria-label={inHand ? WALL.bar : WALL.job}>
          <OrderLine onOpen={() => act.setStep(WALL_TAGS, 1)} />
          {inHand === null ? (
            <>
              <header className={parts.panelHead}>
                <h2>{WALL.noBar}</h2>
                <p>{WALL.takeOne}</p>
              </header>
              <div className={parts.row}>
                <button type="button" className={parts.main} onClick={() => setNew(true)}>
                  {WALL.create}
                </button>
              </div>
              <MadeChanged change={changed} write={write} />
              <MovedList moves={moves} write={write} />
              <Things />
            </>
          ) : (
            <>
              <Suspense fallback={<p className={parts.wait}>{WALL.opening}</p>}>
                <BarPanel
                  key={inHand}
                  id={inHand}
                  onNew={() => setNew(true)}
                  onWait={(node) => setWaits({ bar: inHand, node })}
                >
                  <Questions id={inHand} />
                </BarPanel>
              </Suspense>
              <MadeChanged change={changed} write={write} />
              <MovedList moves={moves} write={write} />
            </>
          )}
        </section>
      )}
      {isNew && (
        <Suspense>
          <NewBar onClose={() => setNew(false)} />
        </Suspense>
      )}
    </div>
  );
}
