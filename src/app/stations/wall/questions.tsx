import { useMemo } from "react";
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
    <section className={parts.questions} aria-label="The bar in hand">
      <Answer
        question="How long?"
        figure={write.length(bend.blank + bend.trim.A + bend.trim.B)}
        says="sawn square"
      >
        Blank {write.length(bend.blank)}, long point to long point, with {write.length(bend.trim.A)} left over
        at end A and {write.length(bend.trim.B)} at end B. Landing to landing along the middle{" "}
        {write.length(bend.length)}.
      </Answer>
      {first ? (
        <Answer
          question="Where do I mark?"
          figure={write.length(lead === "A" ? first.mark : first.markB)}
          says={`first of ${bends.length} mark${bends.length === 1 ? "" : "s"}, from sawn end ${lead}`}
        >
          {`${bends.map((b) => `bend ${b.n} at ${write.length(lead === "A" ? b.mark : b.markB)}`).join(", ")}; all from sawn end ${lead}.`}
        </Answer>
      ) : (
        <Answer question="Where do I mark?" figure="no bends" says="a straight bar">
          Nothing to mark for the bender; the notches are marked at the notcher.
        </Answer>
      )}
      <Answer
        question="What do I cut next?"
        figure={next ? (next.figure ?? (next.kind === "wrap" ? "wrap" : "square")) : steps ? "all cut" : "…"}
        says={next ? `end ${next.end}: ${next.does.toLowerCase()}` : "both ends are done"}
      >
        {next?.says.join(" ")}
      </Answer>
      <Answer question="Will it go in?" figure={fit.figure} says={fit.says}>
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
          Look whether it goes in
        </button>
      )}
    </section>
  );
}

function Without({ results, id }: { readonly results: Results; readonly id: string }) {
  const bar = results.without.find((w) => w.id === id);
  return (
    <p className={parts.wait}>
      {bar ? "This bar has no card yet; see below what is in the way." : "Computing…"}
    </p>
  );
}
