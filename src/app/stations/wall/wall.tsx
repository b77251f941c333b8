import { lazy, Suspense, useMemo, useState } from "react";
import { NO_BARS, WALL } from "../../../words/index.ts";
import { InOneLine, Questions } from "../../answers/index.ts";
import { BarPanel, NewBar, nodeName } from "../../bar-editor/index.ts";
import type { ViewTap } from "../../cage/index.ts";
import { View } from "../../cage/index.ts";
import { classes, NoBars, parts, writeIn } from "../../kit/index.ts";
import { at, calledOf, setValues, thingsOf } from "../../model/document/index.ts";
import { useActions, useApp, useDiffers } from "../../model/state/index.ts";
import { Board, OrderLine, useStanding, WALL_TAGS } from "../../order/index.ts";
import { Things } from "../../things/index.ts";
import styles from "./wall.module.css";

// Once a change has done something to a bar.
const ChangeBand = lazy(async () => ({ default: (await import("./change-band.tsx")).ChangeBand }));
const Changed = lazy(async () => ({ default: (await import("./moved-list.tsx")).Changed }));

/** Where the bars run: the cage, and beside it the bar in hand in sentences. */
export function Wall() {
  const act = useActions();
  const job = useApp((s) => s.job);
  const results = useApp((s) => s.results);
  const inHand = useApp((s) => s.inHand);
  const show = useApp((s) => s.show);
  const hasTags = useApp((s) => (s.steps[WALL_TAGS] ?? 0) === 1);
  const stage = useStanding(inHand);
  const differs = useDiffers();
  const hasChanged = useApp(
    ({ moves, changed: { bars, gone, lost } }) =>
      moves.bars.length + bars.length + gone.length + lost.length > 0,
  );
  const [goTo, setGoTo] = useState<{ readonly bars: readonly string[] }>();
  const write = useMemo(() => writeIn(show), [show]);
  /** The end that waits for a tap on its new host. */
  const [waits, setWaits] = useState<{ readonly bar: string; readonly node: number }>();
  const [isNew, setNew] = useState(false);
  if (!job) return null;
  const { document } = job;
  const isEmpty = Object.keys(thingsOf(document, "bar")).length === 0;
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
          says={(id) => (
            <Suspense>
              <InOneLine id={id} />
            </Suspense>
          )}
          goTo={goTo}
          {...(hasTags ? { stage, small: true } : {})}
        >
          {hasTags && inHand !== null && (
            <p className={styles.when}>{WALL.when(calledOf(document, "bar", inHand))}</p>
          )}
          {hasChanged && !hasTags && !waiting && (
            <Suspense>
              <ChangeBand write={write} show={(bar) => setGoTo({ bars: [bar] })} />
            </Suspense>
          )}
        </View>
      </section>
      {hasTags ? (
        <Suspense fallback={<p className={parts.wait}>{WALL.opening}</p>}>
          <Board onClose={() => act.setStep(WALL_TAGS, 0)} onNew={() => setNew(true)} />
        </Suspense>
      ) : (
        <section className={parts.panel} aria-label={inHand ? WALL.bar : WALL.job}>
          {inHand === null ? (
            <>
              {isEmpty ? (
                <NoBars why={NO_BARS.here} onNew={() => setNew(true)} />
              ) : (
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
                </>
              )}
              <OrderLine onOpen={() => act.setStep(WALL_TAGS, 1)} />
              <Suspense fallback={<p className={parts.wait}>{WALL.opening}</p>}>
                <Things />
              </Suspense>
            </>
          ) : (
            <Suspense fallback={<p className={parts.wait}>{WALL.opening}</p>}>
              <BarPanel
                key={inHand}
                id={inHand}
                onNew={() => setNew(true)}
                onWait={(node) => setWaits({ bar: inHand, node })}
              >
                <Questions id={inHand} />
              </BarPanel>
              <OrderLine onOpen={() => act.setStep(WALL_TAGS, 1)} />
            </Suspense>
          )}
          {hasChanged && (
            <Suspense>
              <Changed write={write} />
            </Suspense>
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
