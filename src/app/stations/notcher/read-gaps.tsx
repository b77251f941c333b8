import { useMemo, useState } from "react";
import type { Notch } from "../../../core/cope/index.ts";
import type { End } from "../../../core/job/index.ts";
import { deg } from "../../../core/numeric/index.ts";
import { asRead, GAPS, RING, sayNextCut, sentence } from "../../../words/index.ts";

import { classes, Dialog, LengthPad, NumberPad, parts, writeIn } from "../../kit/index.ts";
import { calledOf, type JobDocument } from "../../model/document/index.ts";
import { useActions, useAnswer, useApp } from "../../model/state/index.ts";
import { GapRing } from "./gap-ring.tsx";
import { cutMade, gapAt, gapRead, gapsAt, MARKS, type MadeCut, madeOf, sideAt } from "./gaps.ts";
import styles from "./read-gaps.module.css";

/** Gaps read round a joint that is pushed home with a first cut: the next cut. */
export function ReadGaps(props: {
  readonly bar: string;
  readonly end: End;
  readonly notch: Notch;
  readonly document: JobDocument;
  readonly onClose: () => void;
}) {
  const { bar, end, notch, document } = props;
  const act = useActions();
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const found = useAnswer(
    "gaps",
    useMemo(() => ({ bar, end }), [bar, end]),
  );
  const [asks, setAsks] = useState<number | "cut">();
  const kept = gapsAt(document, bar, end);
  const planned = plannedCuts(notch);
  const first: MadeCut = planned[0] ?? { cut: 0 };
  const made: MadeCut = kept && typeof kept.cut === "number" ? (kept as unknown as MadeCut) : first;
  const answer = found?.answer;
  const clock = answer && answer.is !== "no joint" ? answer.cut.clock : (notch.saw?.cut.clock ?? 0);
  const label = calledOf(document, "bar", bar);
  const says = (phi: number): string => {
    const gap = gapAt(kept, phi);
    return gap === undefined ? RING.none : asRead(gap, "tape");
  };
  const suspect = answer?.is === "read" ? answer.read.readings[answer.read.suspect ?? -1] : undefined;
  const off = new Set(suspect ? [suspect.phi] : []);

  return (
    <Dialog title={GAPS.title(label, end)} onClose={props.onClose} wide>
      <p>{GAPS.how}</p>
      <div className={parts.row} role="group" aria-label={GAPS.made}>
        {planned.map((cut, i) => (
          <button
            key={`${cut.cut} ${cut.outboard ?? 0}`}
            type="button"
            aria-pressed={same(cut, made)}
            onClick={() => act.run(cutMade(bar, end, cut, GAPS.cutStep(label, end, cut.cut, write)))}
          >
            {GAPS.cut(i + 1, cut.cut, write)}
          </button>
        ))}
        <button
          type="button"
          aria-pressed={!planned.some((c) => same(c, made))}
          onClick={() => setAsks("cut")}
        >
          {planned.some((c) => same(c, made)) ? GAPS.other : GAPS.cutAt(made.cut, write)}
        </button>
      </div>
      <div className={styles.gaps}>
        <GapRing says={says} clock={clock} off={off} />
        <div className={styles.marks} role="group" aria-label={GAPS.marks}>
          {MARKS.map((phi) => (
            <button
              key={phi}
              type="button"
              aria-label={`${GAPS.mark(phi, sideAt(phi, clock))} ${says(phi)}`}
              onClick={() => setAsks(phi)}
            >
              <span>{GAPS.mark(phi, sideAt(phi, clock))}</span>
              <strong>{says(phi)}</strong>
            </button>
          ))}
        </div>
      </div>
      <section className={styles.answer} aria-label={GAPS.next} aria-live="polite">
        {answer?.is === "no joint" && <p>{GAPS.noJoint[answer.why]}</p>}
        {answer?.is === "empty" && <p className={parts.quiet}>{GAPS.few}</p>}
        {answer?.is === "no answer" && <p>{sentence(answer.why)}</p>}
        {answer?.is === "read" &&
          (() => {
            const { read, next, made: cut } = answer;
            const [main = "", ...rest] = sayNextCut(read, next, cut.clock, write).map((line) => line.says);
            return (
              <>
                <p className={parts.verdict}>{sentence(main)}</p>
                {rest.map((line) => (
                  <p key={line}>{sentence(line)}</p>
                ))}
                {suspect && (
                  <p className={classes(parts.notice, parts.wrong)}>
                    {GAPS.again(
                      {
                        at: suspect.phi,
                        read: suspect.read,
                        others: suspect.computed,
                        leftOut: read.leftOut === true,
                      },
                      write,
                    )}
                  </p>
                )}
                {read.touches > 3 * read.sd.standsOff && (
                  <p className={classes(parts.notice, parts.wrong)}>
                    {GAPS.touchesNowhere(read.touches, write)}
                  </p>
                )}
                {read.readings.length === 4 && <p className={parts.quiet}>{GAPS.noCheck}</p>}
                <div className={parts.row}>
                  <button
                    type="button"
                    className={parts.main}
                    onClick={() =>
                      act.run(
                        cutMade(
                          bar,
                          end,
                          madeOf(next, answer.cut),
                          GAPS.cutStep(label, end, deg(next.cut.notch), write),
                        ),
                      )
                    }
                  >
                    {GAPS.cutMade}
                  </button>
                </div>
              </>
            );
          })()}
      </section>
      {typeof asks === "number" && (
        <LengthPad
          title={GAPS.gap(asks, sideAt(asks, clock))}
          value={gapAt(kept, asks)}
          unit={show.length}
          write={write.fine}
          onClose={() => setAsks(undefined)}
          onSet={(gap) => {
            if (gap !== undefined)
              act.run(
                gapRead(bar, end, made, asks, gap, GAPS.gapStep(label, end, asks, asRead(gap, "tape"))),
              );
            setAsks(undefined);
          }}
        />
      )}
      {asks === "cut" && (
        <NumberPad
          title={GAPS.cutTitle}
          value={made.cut}
          least={0}
          most={85}
          onClose={() => setAsks(undefined)}
          onSet={(cut) => {
            act.run(cutMade(bar, end, { cut }, GAPS.cutStep(label, end, cut, write)));
            setAsks(undefined);
          }}
        />
      )}
    </Dialog>
  );
}

/** The cuts of the card, first to final, as they would be made. */
function plannedCuts(notch: Notch): readonly MadeCut[] {
  const tidy = (v: number): number => Math.round(v * 1e4) / 1e4 + 0;
  const final = notch.saw ? [{ notch: notch.saw.cut.notch, outboard: 0 }] : [];
  return (notch.steps?.steps ?? final).map(({ notch: angle, outboard }) => ({
    cut: tidy(deg(angle)),
    ...(tidy(outboard) === 0 ? {} : { outboard: tidy(outboard) }),
  }));
}

const same = (a: MadeCut, b: MadeCut): boolean =>
  Math.abs(a.cut - b.cut) < 0.01 &&
  Math.abs((a.outboard ?? 0) - (b.outboard ?? 0)) < 0.01 &&
  Math.abs((a.roll ?? 0) - (b.roll ?? 0)) < 0.01;
