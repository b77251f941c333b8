import { ChevronLeft, ChevronRight } from "lucide-react";
import { type ReactNode, useEffect, useRef } from "react";
import { STAGE } from "../../words/index.ts";
import { useAwake } from "./device.ts";
import parts from "./parts.module.css";
import styles from "./stage.module.css";
import { split } from "./write.ts";

/** What a step shows, whatever the station. */
export interface Shown {
  readonly key: string;
  readonly does: string;
  readonly figure?: string;
  readonly says: readonly string[];
}

/** One step at a time, its figure legible from two metres; back and next by thumb or by the arrow keys. */
export function Stage(props: {
  readonly steps: readonly Shown[];
  readonly at: number;
  readonly go: (step: number) => void;
  /** What "next" says at the last step, and does. */
  readonly finish?: { readonly says: string; readonly do: () => void };
  readonly head: ReactNode;
  readonly picture?: ReactNode;
  readonly more?: ReactNode;
  /** Beside the buttons, in sight whatever is scrolled. */
  readonly caution: ReactNode;
}) {
  const { steps, go, finish } = props;
  const at = Math.min(Math.max(0, props.at), steps.length - 1);
  const step = steps[at];
  useAwake();
  useEffect(() => {
    function onKey(event: KeyboardEvent): void {
      if (event.altKey || event.ctrlKey || event.metaKey || document.querySelector("dialog[open]")) return;
      if (event.target instanceof HTMLElement && event.target.matches("input, canvas, textarea")) return;
      if (event.key === "ArrowRight" && at < steps.length - 1) go(at + 1);
      else if (event.key === "ArrowLeft" && at > 0) go(at - 1);
      else return;
      event.preventDefault();
    }
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, [at, go, steps.length]);
  const [stage, words] = [useRef<HTMLElement>(null), useRef<HTMLDivElement>(null)];
  // a step begins at its head, however far the one before was read down
  // biome-ignore lint/correctness/useExhaustiveDependencies: the step is what it waits for
  useEffect(() => {
    stage.current?.parentElement?.scrollTo(0, 0);
    words.current?.scrollTo(0, 0);
  }, [at]);
  if (!step) return null;
  const { number, unit } = split(step.figure ?? "");
  const next = steps[at + 1];
  return (
    <section ref={stage} className={styles.stage} aria-label={STAGE.step(at + 1, steps.length)}>
      {props.head}
      <div ref={words} className={styles.step} aria-live="polite">
        <p className={styles.stepOf}>{STAGE.step(at + 1, steps.length)}</p>
        <h2 className={styles.does}>{step.does}</h2>
        {number && (
          <p
            className={styles.huge}
            style={
              { "--letters": Math.max(3.2, lettersOf(number) + (unit ? 1.1 : 0)) } as React.CSSProperties
            }
          >
            {number}
            {unit && <small>{unit}</small>}
          </p>
        )}
        <div className={styles.stepSays}>
          {step.says.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
        {props.more}
      </div>
      {props.picture && <div className={styles.picture}>{props.picture}</div>}
      <div className={styles.thumbs}>
        {props.caution}
        <button type="button" disabled={at === 0} onClick={() => go(at - 1)}>
          <ChevronLeft aria-hidden /> {STAGE.back}
        </button>
        {!next && finish ? (
          <button type="button" className={parts.main} onClick={finish.do}>
            {finish.says}
          </button>
        ) : (
          <button type="button" className={parts.main} disabled={!next} onClick={() => go(at + 1)}>
            {next ? STAGE.next(next.does) : STAGE.last} <ChevronRight aria-hidden />
          </button>
        )}
      </div>
    </section>
  );
}

/** Widths in figures: a point, a degree and a space are narrow. */
const lettersOf = (text: string): number =>
  [...text].reduce((sum, c) => sum + (/[.,°'\s/]/.test(c) ? 0.55 : 1), 0);
