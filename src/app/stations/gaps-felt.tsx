import { useMemo, useState } from "react";
import type { Notch } from "../../core/cope/index.ts";
import type { End } from "../../core/job/index.ts";
import { deg } from "../../core/numeric/index.ts";
import { asRead, sayNextCut } from "../../words/index.ts";
import { calledOf, type JobDocument } from "../document/index.ts";
import { Dialog } from "../ui/dialog.tsx";
import { LengthPad, NumberPad } from "../ui/keypad.tsx";
import { useAnswer } from "../use-answer.ts";
import { useActions, useApp } from "../use-app.ts";
import { cutMade, feel, feltOf, gapAt, MARKS, type MadeCut, madeOf, sideAt } from "./felt.ts";
import { GapRing } from "./gap-ring.tsx";
import { writeIn } from "./write.ts";

/** Gaps felt round a joint that is pushed home with a first cut: the next cut. */
export function GapsFelt(props: {
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
  const told = useAnswer(
    "gaps",
    useMemo(() => ({ bar, end }), [bar, end]),
  );
  const [asks, setAsks] = useState<number | "cut">();
  const felt = feltOf(document, bar, end);
  const planned = plannedCuts(notch);
  const first: MadeCut = planned[0] ?? { cut: 0 };
  const made: MadeCut = felt && typeof felt.cut === "number" ? (felt as unknown as MadeCut) : first;
  const answer = told?.answer;
  const clock = answer && answer.is !== "no joint" ? answer.cut.clock : (notch.saw?.cut.clock ?? 0);
  const label = calledOf(document, "bar", bar);
  const says = (phi: number): string => {
    const gap = gapAt(felt, phi);
    return gap === undefined ? "–" : asRead(gap, "tape");
  };
  const suspect = answer?.is === "read" ? answer.read.suspect : undefined;
  const off = new Set(
    answer?.is === "read" && suspect !== undefined ? [answer.read.readings[suspect]!.phi] : [],
  );

  return (
    <Dialog title={`Gaps felt: ${label}, end ${end}`} onClose={props.onClose} wide>
      <p>
        Push the bar home with the cut that is made. Feel the gap square to the host at marks round the tube;
        0 where it touches. Four marks give an answer, eight check it.
      </p>
      <div className="row" role="group" aria-label="The cut that is made">
        {planned.map((cut, i) => (
          <button
            key={`${cut.cut} ${cut.outboard ?? 0}`}
            type="button"
            aria-pressed={same(cut, made)}
            onClick={() =>
              act.run(cutMade(bar, end, cut, `${label}, end ${end}: cut at ${write.angle(cut.cut)}`))
            }
          >
            Cut {i + 1}: {write.angle(cut.cut)}
          </button>
        ))}
        <button
          type="button"
          aria-pressed={!planned.some((c) => same(c, made))}
          onClick={() => setAsks("cut")}
        >
          {planned.some((c) => same(c, made)) ? "Another angle" : `Cut at ${write.angle(made.cut)}`}
        </button>
      </div>
      <div className="felt">
        <GapRing says={says} clock={clock} off={off} />
        <div className="felt-marks" role="group" aria-label="Marks round the joint">
          {MARKS.map((phi) => (
            <button
              key={phi}
              type="button"
              aria-label={`${`${phi}° ${sideAt(phi, clock)}`.trim()} ${says(phi)}`}
              onClick={() => setAsks(phi)}
            >
              <span>
                {phi}° {sideAt(phi, clock)}
              </span>
              <strong>{says(phi)}</strong>
            </button>
          ))}
        </div>
      </div>
      <section className="felt-answer" aria-label="Next cut" aria-live="polite">
        {answer?.is === "no joint" && <p>{NO_JOINT[answer.why]}</p>}
        {answer?.is === "empty" && (
          <p className="quiet">Four gaps or more, spread all round, give the next cut.</p>
        )}
        {answer?.is === "no answer" && <p>{sentence(answer.why)}</p>}
        {answer?.is === "read" &&
          (() => {
            const { read, next, made: cut } = answer;
            const [main, ...rest] = sayNextCut(read, next, cut.clock, write);
            return (
              <>
                <p className="verdict">{sentence(main!)}</p>
                {rest.map((line) => (
                  <p key={line}>{sentence(line)}</p>
                ))}
                {suspect !== undefined && (
                  <p className="notice wrong">
                    Feel again at {write.angle(read.readings[suspect]!.phi)}: it was read{" "}
                    {write.fine(read.readings[suspect]!.read)}, the others say{" "}
                    {write.fine(read.readings[suspect]!.computed)}
                    {read.leftOut ? "; it is left out." : "."}
                  </p>
                )}
                {read.touches > 3 * read.sd.standsOff && (
                  <p className="notice wrong">
                    By these gaps the bar touches nowhere (nearest {write.fine(read.touches)}): push it home
                    and feel again.
                  </p>
                )}
                {read.readings.length === 4 && (
                  <p className="quiet">Four gaps leave nothing to check by; eight would.</p>
                )}
                <div className="row">
                  <button
                    type="button"
                    className="main"
                    onClick={() =>
                      act.run(
                        cutMade(
                          bar,
                          end,
                          madeOf(next, answer.cut),
                          `${label}, end ${end}: cut again at ${write.angle(deg(next.cut.notch))}`,
                        ),
                      )
                    }
                  >
                    That cut is made: feel again
                  </button>
                </div>
              </>
            );
          })()}
      </section>
      {typeof asks === "number" && (
        <LengthPad
          title={`Gap at ${asks}°${sideAt(asks, clock) ? `, the ${sideAt(asks, clock)}` : ""}`}
          value={gapAt(felt, asks)}
          unit={show.length}
          write={write.fine}
          onClose={() => setAsks(undefined)}
          onSet={(gap) => {
            if (gap !== undefined)
              act.run(
                feel(
                  bar,
                  end,
                  made,
                  asks,
                  gap,
                  `${label}, end ${end}: gap at ${asks}° ${asRead(gap, "tape")}`,
                ),
              );
            setAsks(undefined);
          }}
        />
      )}
      {asks === "cut" && (
        <NumberPad
          title="The cut that is made, off square"
          value={made.cut}
          least={0}
          most={85}
          onClose={() => setAsks(undefined)}
          onSet={(cut) => {
            act.run(cutMade(bar, end, { cut }, `${label}, end ${end}: cut at ${write.angle(cut)}`));
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

const NO_JOINT = {
  "no bar": "This bar has no place in the car yet.",
  flat: "This end lands on no bar: a flat end needs no notch.",
  "no saw": "No hole saw cut makes this end: it is cut to the wrap.",
} as const;

const sentence = (said: string): string => `${said[0]!.toUpperCase()}${said.slice(1)}.`;
