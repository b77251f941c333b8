import { isError } from "../../core/findings/index.ts";
import type { Progress } from "../../core/job/index.ts";
import { NO_BARS, say, sentence, TAKE_ONE } from "../../words/index.ts";
import { calledOf, comeTo, type JobDocument, namesIn, thingsOf } from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import { NoBars } from "./no-bars.tsx";
import parts from "./parts.module.css";
import styles from "./take-one.module.css";
import { writeIn } from "./write.ts";

/**
 * No bar is in hand where one is needed, or one that has no card: then what is in the way. `next`: how far a bar has
 * come that is likely to be wanted here, the likeliest first.
 */
export function TakeOne({
  question,
  next,
}: {
  readonly question: string;
  readonly next: readonly Progress[];
}) {
  const id = useApp((s) => s.inHand);
  const without = useApp((s) => s.results.without.find((w) => w.id === id));
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  const act = useActions();
  if (without && document) {
    const write = writeIn(show);
    const names = namesIn(document);
    return (
      <section className={styles.takeOne}>
        <h2>{TAKE_ONE.cannot(without.label)}</h2>
        {without.findings.filter(isError).map((f) => (
          <p key={`${f.code} ${f.place} ${say(f, write, names)}`}>{sentence(say(f, write, names))}</p>
        ))}
        <div className={parts.row}>
          <button type="button" className={parts.main} onClick={() => act.goTo("wall")}>
            {TAKE_ONE.mend}
          </button>
        </div>
      </section>
    );
  }
  const likely = document && likelyBar(document, next);
  if (document && likely === undefined)
    return (
      <div className={styles.takeOne}>
        <NoBars why={NO_BARS.station(question)} />
      </div>
    );
  return (
    <section className={styles.takeOne}>
      <h2>{TAKE_ONE.take(question)}</h2>
      <p>{TAKE_ONE.how}</p>
      {document && likely !== undefined && id === null && (
        <div className={parts.row}>
          <button type="button" className={parts.main} onClick={() => act.take(likely)}>
            {TAKE_ONE.takeIt(calledOf(document, "bar", likely))}
          </button>
        </div>
      )}
    </section>
  );
}

/** The first bar of the job that has come as far as the likeliest step that any has come to; else the first of all. */
function likelyBar(document: JobDocument, next: readonly Progress[]): string | undefined {
  const bars = Object.keys(thingsOf(document, "bar"));
  for (const step of next) {
    const found = bars.find((id) => comeTo(document, id).progress === step);
    if (found !== undefined) return found;
  }
  return bars[0];
}
