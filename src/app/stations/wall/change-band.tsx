import { ChevronLeft, ChevronRight, Undo2, X } from "lucide-react";
import { useEffect, useRef, useState } from "react";
import { CHANGE_BAND, MAKE_AGAIN } from "../../../words/index.ts";
import type { Write } from "../../kit/index.ts";
import { useActions, useApp } from "../../model/state/index.ts";
import styles from "./change-band.module.css";
import { sayTouched, type Touched, touchedBy } from "./each.ts";

/** What the last step did, over the picture; bar by bar when it is asked to. Nothing where it touched no bar. */
export function ChangeBand(props: {
  readonly write: Write;
  /** Takes the picture to a bar. */
  readonly show: (bar: string) => void;
}) {
  const moves = useApp((s) => s.moves);
  const changed = useApp((s) => s.changed);
  const did = useApp((s) => s.job?.did);
  const act = useActions();
  const [closed, setClosed] = useState<unknown>();
  const [walks, setWalks] = useState<{ readonly of: unknown; readonly at: number }>();
  const each = useRef<HTMLButtonElement>(null);
  const touched = touchedBy(moves, changed);
  // what another device marked meanwhile leaves the bars that this step touched as they are, and their list the same one
  const step = moves.bars.length > 0 ? moves.bars : changed;
  // until the bars are computed what is there is of the step before
  if (touched.length === 0 || moves.of !== did || closed === step) return null;
  const made = touched.filter((t) => t.made !== undefined).length;
  const walk = walks?.of === step ? walks : undefined;

  function go(at: number): void {
    setWalks({ of: step, at });
    const bar = touched[at];
    if (!bar?.isThere) return;
    act.take(bar.id);
    props.show(bar.id);
  }
  function done(): void {
    setWalks(undefined);
    requestAnimationFrame(() => each.current?.focus());
  }
  const bar = walk && touched[walk.at];
  if (walk && bar)
    return <Walk bar={bar} at={walk.at} of={touched.length} write={props.write} go={go} done={done} />;
  return (
    <section className={styles.band} aria-label={CHANGE_BAND.region}>
      <p aria-live="polite">
        <strong>{moves.name ?? changed.name ?? CHANGE_BAND.others}:</strong>{" "}
        {CHANGE_BAND.count(touched.length, made)}
      </p>
      <button ref={each} type="button" onClick={() => go(0)}>
        {CHANGE_BAND.each}
      </button>
      {moves.name !== undefined && (
        <button
          type="button"
          className={styles.icon}
          aria-label={CHANGE_BAND.undo}
          onClick={() => act.undo()}
        >
          <Undo2 aria-hidden />
          <span>{CHANGE_BAND.undo}</span>
        </button>
      )}
      <button
        type="button"
        className={styles.icon}
        aria-label={CHANGE_BAND.close}
        onClick={() => setClosed(step)}
      >
        <X aria-hidden />
      </button>
    </section>
  );
}

/** One bar after the other, each taken in hand; Esc leaves it. */
function Walk(props: {
  readonly bar: Touched;
  readonly at: number;
  readonly of: number;
  readonly write: Write;
  readonly go: (at: number) => void;
  readonly done: () => void;
}) {
  const { bar, at, of, go, done } = props;
  const act = useActions();
  const next = useRef<HTMLButtonElement>(null);
  useEffect(() => next.current?.focus(), []);
  return (
    <section className={styles.band} aria-label={CHANGE_BAND.region}>
      <p aria-live="polite">
        <small>{CHANGE_BAND.of(at + 1, of)}</small> <strong>{bar.label}:</strong>{" "}
        {sayTouched(bar, props.write)}
      </p>
      {typeof bar.made === "object" && bar.made.verdict === "make again" && (
        <button type="button" onClick={() => act.makeAgain(bar.id)}>
          {MAKE_AGAIN.button}
        </button>
      )}
      <button
        type="button"
        className={styles.icon}
        aria-label={CHANGE_BAND.before}
        disabled={at === 0}
        onClick={() => go(at - 1)}
      >
        <ChevronLeft aria-hidden />
      </button>
      <button
        ref={next}
        type="button"
        className={styles.icon}
        aria-label={CHANGE_BAND.next}
        disabled={at + 1 === of}
        onClick={() => go(at + 1)}
      >
        <ChevronRight aria-hidden />
      </button>
      <button type="button" data-escape onClick={done}>
        {CHANGE_BAND.done}
      </button>
    </section>
  );
}
