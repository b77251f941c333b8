import { useState } from "react";
import { SET_UP, type SetUpStep } from "../../../core/job/index.ts";
import { DOOR_GAP, type DoorGapPair, doorGapPairs, READ_TO } from "../../../core/survey/index.ts";
import { asRead, SET_UP_PAGE as SAYS, sayDoorGap } from "../../../words/index.ts";
import { AskText, classes, Dialog, LengthPad, parts, writeIn } from "../../kit/index.ts";
import { at, type JobDocument } from "../../model/document/index.ts";
import { useActions, useApp } from "../../model/state/index.ts";
import styles from "./set-up.module.css";
import { doneIn, GAPS, gapReadAt, ticked, type When } from "./set-up-edit.ts";

/** How far the car is ready to be measured, in one line that opens the list. */
export function SetUpLine({ document }: { readonly document: JobDocument }) {
  const [isOpen, setOpen] = useState(false);
  const setUp = useApp((s) => (s.job?.read.ok ? s.job.read.job.setUp : undefined));
  const done = setUp?.done.length ?? 0;
  const moved = doorGapPairs(setUp?.doorGaps ?? []).filter((g) => g.moved).length;
  return (
    <>
      <button type="button" className={styles.line} onClick={() => setOpen(true)}>
        <span>{done === SET_UP.length ? SAYS.allDone : SAYS.button(done, SET_UP.length)}</span>
        {moved > 0 && <strong className={styles.off}>⚠ {SAYS.moved(moved)}</strong>}
      </button>
      {isOpen && <SetUp document={document} onClose={() => setOpen(false)} />}
    </>
  );
}

/** What is out of the car and how it is supported, to be ticked; gaps round its doors, before and after. */
function SetUp({ document, onClose }: { readonly document: JobDocument; readonly onClose: () => void }) {
  const act = useActions();
  const done = doneIn(document);
  const tick = (step: SetUpStep): void => void act.run(ticked(done, step));
  return (
    <Dialog title={SAYS.title} onClose={onClose} wide>
      <p>{SAYS.intro}</p>
      <ul className={styles.ticks} aria-label={SAYS.list}>
        {SET_UP.map((step) => (
          <li key={step}>
            <button
              type="button"
              role="checkbox"
              aria-checked={done.includes(step)}
              className={styles.tick}
              onClick={() => tick(step)}
            >
              <span aria-hidden="true" className={styles.box}>
                {done.includes(step) ? "✓" : ""}
              </span>
              {SAYS.done[step]}
            </button>
          </li>
        ))}
      </ul>
      <DoorGaps document={document} />
    </Dialog>
  );
}

function DoorGaps({ document }: { readonly document: JobDocument }) {
  const act = useActions();
  const show = useApp((s) => s.show);
  const write = writeIn(show);
  // while something else of the job is wrong, what was read before is not known: nothing is added that would not strike it
  const isRead = useApp((s) => s.job?.read.ok === true);
  const gaps = useApp((s) => (s.job?.read.ok ? s.job.read.job.setUp?.doorGaps : undefined)) ?? [];
  const [named, setNamed] = useState<string>();
  const [asks, setAsks] = useState<{ readonly at: string; readonly when: When } | "place">();
  const pairs = doorGapPairs(gaps);
  const all: readonly DoorGapPair[] =
    named !== undefined && pairs.every((p) => p.at !== named)
      ? [...pairs, { at: named, moved: false }]
      : pairs;

  function read(at: string, when: When, gap: number | string): void {
    setAsks(undefined);
    act.run(
      gapReadAt(
        pairs.find((p) => p.at === at),
        at,
        when,
        gap,
      ),
    );
  }
  const figure = (pair: DoorGapPair, when: When) => {
    const read = pair[when];
    const says = read ? asRead(at(document, [...GAPS, read.index, "gap"]), "tape") : SAYS.read;
    return (
      <button
        type="button"
        className={parts.value}
        disabled={!isRead}
        aria-label={`${SAYS.ask(when, pair.at)}: ${says}`}
        onClick={() => setAsks({ at: pair.at, when })}
      >
        {says}
      </button>
    );
  };

  return (
    <section className={styles.gaps} aria-label={SAYS.gaps}>
      <h3>{SAYS.gaps}</h3>
      <p className={parts.quiet}>
        {SAYS.gapsWhy(write.fine(DOOR_GAP))} {SAYS.gapsFrom(write.fine(READ_TO))}
      </p>
      {all.length > 0 && (
        <table>
          <thead>
            <tr>
              <th scope="col">{SAYS.at}</th>
              <th scope="col">{SAYS.before}</th>
              <th scope="col">{SAYS.after}</th>
              <th scope="col">{SAYS.change}</th>
            </tr>
          </thead>
          <tbody>
            {all.map((pair) => (
              <tr key={pair.at}>
                <th scope="row">{pair.at}</th>
                <td data-says={SAYS.before}>{figure(pair, "before")}</td>
                <td data-says={SAYS.after}>{figure(pair, "after")}</td>
                <td className={classes(pair.moved && styles.off)}>
                  {pair.moved && <span aria-hidden="true">⚠ </span>}
                  {pair.change === undefined
                    ? SAYS.needsBoth
                    : sayDoorGap(pair.change, pair.moved, write.fine)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <button type="button" disabled={!isRead} onClick={() => setAsks("place")}>
        {SAYS.add}
      </button>
      {asks === "place" && (
        <AskText
          title={SAYS.add}
          label={SAYS.name}
          as="name"
          value={SAYS.usual}
          done={SAYS.add}
          onClose={() => setAsks(undefined)}
          onDone={(place) => {
            setNamed(place);
            setAsks({ at: place, when: "before" });
          }}
        />
      )}
      {asks !== undefined && asks !== "place" && (
        <LengthPad
          key={`${asks.at} ${asks.when}`}
          title={SAYS.ask(asks.when, asks.at)}
          value={undefined}
          unit={show.length}
          write={write.fine}
          onClose={() => setAsks(undefined)}
          onSet={(gap) => gap !== undefined && read(asks.at, asks.when, gap)}
        />
      )}
    </section>
  );
}
