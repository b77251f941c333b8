import { isEased, QUESTIONS, WALL } from "../../words/index.ts";
import { Answer, Caution, Decides, parts } from "../kit/index.ts";
import type { Results } from "../model/compute/index.ts";
import { useApp } from "../model/state/index.ts";
import { useFour } from "./four.ts";
import styles from "./questions.module.css";

/** How long? Where do I mark? What do I cut next? Will it go in? One figure and one line each, the reason folded beneath. */
export function Questions({ id }: { readonly id: string }) {
  const results = useApp((s) => s.results);
  const four = useFour(id);
  if (!four) return <Without results={results} id={id} />;
  const { all, off, force, look } = four;
  return (
    <section className={parts.questions} aria-label={WALL.bar}>
      {all.map(({ question, figure, says, why }) => (
        <Answer key={question} question={question} figure={figure} says={says}>
          {why}
        </Answer>
      ))}
      {off && isEased(off) && <Decides />}
      {force && (
        <>
          <Caution steps={["sprung"]} />
          <Decides force />
        </>
      )}
      {look && (
        <button type="button" className={styles.look} onClick={look}>
          {QUESTIONS.look}
        </button>
      )}
    </section>
  );
}

function Without({ results, id }: { readonly results: Results; readonly id: string }) {
  const bar = results.without.find((w) => w.id === id);
  return <p className={parts.wait}>{bar ? QUESTIONS.noCard : QUESTIONS.waiting}</p>;
}
