import { useMemo } from "react";
import { QUESTIONS, WALL } from "../../../words/index.ts";
import { Answer, Caution, Decides, parts, writeIn } from "../../kit/index.ts";
import type { Results } from "../../model/compute/index.ts";
import { at, calledOf } from "../../model/document/index.ts";
import { useApp, useAppItself } from "../../model/state/index.ts";
import { notcherSteps, useNotches } from "../../notch/index.ts";
import { useGoesIn } from "../../order/index.ts";
import styles from "./questions.module.css";

/** How long? Where do I mark? What do I cut next? Will it go in? One sentence and one number each, the reason folded beneath. */
export function Questions({ id }: { readonly id: string }) {
  const results = useApp((s) => s.results);
  const show = useApp((s) => s.show);
  const document = useApp((s) => s.job?.document);
  const done = useApp((s) => s.steps);
  const { computer } = useAppItself();
  const write = useMemo(() => writeIn(show), [show]);
  const fit = useGoesIn(id);
  const result = results.bars.get(id);
  const notches = useNotches(computer, results, result);
  if (!result || !document) return <Without results={results} id={id} />;
  const { bend, bar } = result;
  const lead = bar.fromEnd;
  const bends = lead === "A" ? bend.bends : [...bend.bends].reverse();
  const first = bends[0];
  const called = (b: string): string => calledOf(document, "bar", b);
  const limits = {
    gap: Number(at(document, ["notcher", "wrapBeyond"]) ?? at(document, ["shop", "gap"]) ?? 1),
  };
  const steps =
    notches &&
    (["A", "B"] as const).flatMap((end) => notcherSteps(result, end, notches[end], limits, write, called));
  const next = steps
    ?.slice(done[`notcher ${id}`] ?? 0)
    .find((s) => s.kind === "cut" || s.kind === "flat" || s.kind === "wrap");
  return (
    <section className={parts.questions} aria-label={WALL.bar}>
      <Answer
        question={QUESTIONS.long}
        figure={write.length(bend.blank + bend.trim.A + bend.trim.B)}
        says={QUESTIONS.sawn}
      >
        {QUESTIONS.lengths({ net: bend.blank, a: bend.trim.A, b: bend.trim.B, centre: bend.length }, write)}
      </Answer>
      {first ? (
        <Answer
          question={QUESTIONS.mark}
          figure={write.length(lead === "A" ? first.mark : first.markB)}
          says={QUESTIONS.first(bends.length, lead)}
        >
          {QUESTIONS.marks(
            bends.map((b) => [b.n, lead === "A" ? b.mark : b.markB]),
            lead,
            write,
          )}
        </Answer>
      ) : (
        <Answer question={QUESTIONS.mark} figure={QUESTIONS.noBends} says={QUESTIONS.straight}>
          {QUESTIONS.nothingToMark}
        </Answer>
      )}
      <Answer
        question={QUESTIONS.next}
        figure={
          next
            ? (next.figure ?? (next.kind === "wrap" ? QUESTIONS.wrap : QUESTIONS.square))
            : steps
              ? QUESTIONS.allCut
              : QUESTIONS.computing
        }
        says={next ? QUESTIONS.nextStep(next.end, next.does) : QUESTIONS.done}
      >
        {next?.says.join(" ")}
      </Answer>
      <Answer question={QUESTIONS.goesIn} figure={fit.figure} says={fit.says}>
        {fit.reasons.join(" ")}
      </Answer>
      {fit.force && (
        <>
          <Caution steps={["sprung"]} />
          <Decides force />
        </>
      )}
      {fit.look && (
        <button type="button" className={styles.look} onClick={fit.look}>
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
