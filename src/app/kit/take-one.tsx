import { isError } from "../../core/findings/index.ts";
import { say, sentence, TAKE_ONE } from "../../words/index.ts";
import { namesIn } from "../model/document/index.ts";
import { useApp } from "../model/state/index.ts";
import styles from "./take-one.module.css";
import { writeIn } from "./write.ts";

/** No bar is in hand where one is needed, or one that has no card: then what is in the way. */
export function TakeOne({ question }: { readonly question: string }) {
  const id = useApp((s) => s.inHand);
  const without = useApp((s) => s.results.without.find((w) => w.id === id));
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  if (without && document) {
    const write = writeIn(show);
    const names = namesIn(document);
    return (
      <section className={styles.takeOne}>
        <h2>{TAKE_ONE.cannot(without.label)}</h2>
        {without.findings.filter(isError).map((f) => (
          <p key={`${f.code} ${f.place} ${say(f, write, names)}`}>{sentence(say(f, write, names))}</p>
        ))}
      </section>
    );
  }
  return (
    <section className={styles.takeOne}>
      <h2>{TAKE_ONE.take(question)}</h2>
      <p>{TAKE_ONE.how}</p>
    </section>
  );
}
