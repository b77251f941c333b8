import { deg } from "../../core/numeric/index.ts";
import { BETWEEN_BAR as BAR, BETWEEN, small } from "../../words/index.ts";
import { Answer, classes, parts, type Write } from "../kit/index.ts";
import type { BarResult } from "../model/compute/index.ts";
import type { Notches } from "../notch/index.ts";
import { notcherSteps, standing } from "../notch/index.ts";
import styles from "./answers.module.css";
import { TUBE_1, TUBE_2 } from "./readings.ts";

/** How long, which allowance, how the ends are clocked to each other, and what is cut on each. */
export function Answers(props: {
  readonly bar: BarResult;
  readonly notches: Notches;
  readonly apart: number | undefined;
  readonly trust: number;
  readonly write: Write;
  /** Of readings that make no bar: what the last ones that did came to. */
  readonly isStale: boolean;
}) {
  const { bar, notches, apart, trust, write } = props;
  const leave = { A: notches.A?.steps?.leave ?? 0, B: notches.B?.steps?.leave ?? 0 };
  const net = bar.bend.blank;
  return (
    <div className={styles.answers} data-stale={props.isStale}>
      <div className={classes(parts.questions, styles.figures)}>
        <Answer large question={BAR.netLength} figure={write.length(net)} says={BAR.netLengthIs}>
          {apart !== undefined && BAR.centres(write.length(apart))}{" "}
          {BAR.notches(write.length(bar.leastBack.A), write.length(bar.leastBack.B))}
        </Answer>
        <Answer
          large
          question={BAR.allowance}
          figure={write.fine(leave.A + leave.B)}
          says={BAR.allowances(
            write.fine(leave.A),
            write.fine(leave.B),
            write.length(net + leave.A + leave.B),
          )}
        >
          {BAR.why(trust)}
        </Answer>
      </div>
      <p className={styles.together}>{standing(bar, notches.A, notches.B, write)}</p>
      <div className={styles.ends}>
        <End bar={bar} end="A" tube={1} notch={notches.A} write={write} />
        <End bar={bar} end="B" tube={2} notch={notches.B} write={write} />
      </div>
    </div>
  );
}

const called = (id: string): string =>
  id === TUBE_1 ? small(BETWEEN.tube(1)) : id === TUBE_2 ? small(BETWEEN.tube(2)) : id;

/** What is cut on one end. */
function End(props: {
  readonly bar: BarResult;
  readonly end: "A" | "B";
  readonly tube: 1 | 2;
  readonly notch: Notches["A"];
  readonly write: Write;
}) {
  const { bar, end, tube, notch, write } = props;
  const saw = notch?.useWrap ? undefined : notch?.saw;
  const steps = notcherSteps(bar, end, notch, { gap: 1 }, write, called).filter((s) =>
    ["wrap", "turn", "offset", "cut"].includes(s.kind),
  );
  return (
    <section className={styles.end} aria-label={BAR.end(end)}>
      <h2>{BAR.onTube(end, tube)}</h2>
      <p className={styles.figure}>
        {saw ? write.angle(deg(saw.cut.notch)) : BAR.wrap}
        {saw && <small> {BAR.offSquare(write.size(2 * saw.cut.radius))}</small>}
      </p>
      <ul>
        {steps.map((s) => (
          <li key={s.key}>
            {s.figure && (
              <strong>
                {s.does}: {s.figure}.{" "}
              </strong>
            )}
            {s.says.join(" ")}
          </li>
        ))}
      </ul>
    </section>
  );
}
