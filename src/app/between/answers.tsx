import { deg } from "../../core/numeric/index.ts";
import { Answer, type Write } from "../kit/index.ts";
import type { BarResult } from "../model/compute/index.ts";
import type { Notches } from "../notch/index.ts";
import { notcherSteps, standing } from "../notch/index.ts";
import styles from "./answers.module.css";

/** How long, what to leave over, how the ends stand to each other, and what is cut on each. */
export function Answers(props: {
  readonly bar: BarResult;
  readonly notches: Notches;
  readonly apart: number | undefined;
  readonly trust: number;
  readonly write: Write;
  /** Of readings that make no bar: what the last ones that did came to. */
  readonly isStale: boolean;
}) {
  const { bar, notches, apart, trust, write, isStale } = props;
  const leave = { A: notches.A?.steps?.leave ?? 0, B: notches.B?.steps?.leave ?? 0 };
  return (
    <div className={styles.answers} data-stale={isStale}>
      <div className={`questions ${styles.figures}`}>
        <Answer
          question="How long?"
          figure={write.length(bar.bend.blank)}
          says="long point to long point, before what you leave over"
        >
          Middle to middle of the tubes {apart !== undefined && write.length(apart)}; the notches take{" "}
          {write.length(bar.leastBack.A)} at tube 1 and {write.length(bar.leastBack.B)} at tube 2 off that.
        </Answer>
        <Answer
          question="Leave over"
          figure={write.fine(leave.A + leave.B)}
          says={`${write.fine(leave.A)} at tube 1, ${write.fine(leave.B)} at tube 2`}
        >
          With an angle finder good to ± {trust}° the first cut may have to be cut again; this much more tube
          lets the final cut clean it up. Saw to {write.length(bar.bend.blank + leave.A + leave.B)}.
        </Answer>
      </div>
      <p className={styles.together}>{standing(bar, notches.A, notches.B, write)}</p>
      <div className={styles.ends}>
        {(["A", "B"] as const).map((end) => {
          const notch = notches[end];
          const steps = notcherSteps(bar, end, notch, { gap: 1 }, write, (id) =>
            id === "tube-1" ? "tube 1" : id === "tube-2" ? "tube 2" : id,
          );
          const cuts = steps.filter((s) => s.kind === "cut");
          const saw = notch?.useWrap ? undefined : notch?.saw;
          return (
            <section key={end} className={styles.end} aria-label={`End ${end}`}>
              <h2>
                End {end}, on tube {end === "A" ? 1 : 2}
              </h2>
              <p className={styles.figure}>
                {saw ? write.angle(deg(saw.cut.notch)) : "wrap"}
                {saw && <small> off square, hole saw {write.size(2 * saw.cut.radius)}</small>}
              </p>
              <ul>
                {steps
                  .filter((s) => s.kind === "wrap" || s.kind === "turn" || s.kind === "offset")
                  .map((s) => (
                    <li key={s.key}>
                      {s.figure && (
                        <strong>
                          {s.does.replace("Turn the tube: ", "")} {s.figure}:{" "}
                        </strong>
                      )}
                      {s.says.join(" ")}
                    </li>
                  ))}
                {cuts.map((s) => (
                  <li key={s.key}>
                    <strong>
                      {s.does}: {s.figure}
                    </strong>{" "}
                    {s.says.join(" ").replace("Off square. Hole", "off square, hole")}
                  </li>
                ))}
              </ul>
            </section>
          );
        })}
      </div>
    </div>
  );
}
