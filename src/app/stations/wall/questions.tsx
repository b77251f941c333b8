import { useMemo } from "react";
import { type BentTo, PROGRESS, type Progress } from "../../../core/job/index.ts";
import { isEased, nameVerdict, QUESTIONS, sayMade, WALL } from "../../../words/index.ts";
import { Answer, Caution, Decides, parts, writeIn } from "../../kit/index.ts";
import type { Results } from "../../model/compute/index.ts";
import { at, calledOf, comeTo, type JobDocument } from "../../model/document/index.ts";
import { useApp, useAppItself, useDiffers } from "../../model/state/index.ts";
import { notcherSteps, useNotches } from "../../notch/index.ts";
import { useGoesIn } from "../../order/index.ts";
import styles from "./questions.module.css";

/** How long? Where do I mark? What do I cut next? Will it go in? One sentence and one number each, the reason folded beneath. */
export function Questions({ id }: { readonly id: string }) {
  const results = useApp((s) => s.results);
  const show = useApp((s) => s.show);
  const document = useApp((s) => s.job?.document);
  const job = useApp((s) => (s.job?.read.ok ? s.job.read.job : undefined));
  const done = useApp((s) => s.steps);
  const { computer } = useAppItself();
  const write = useMemo(() => writeIn(show), [show]);
  const fit = useGoesIn(id);
  const off = useDiffers()?.bars.find((v) => v.bar === id);
  const result = results.bars.get(id);
  const notches = useNotches(computer, results, result);
  if (!result || !document) return <Without results={results} id={id} />;
  const { bend, bar } = result;
  const lead = bar.fromEnd;
  const bends = lead === "A" ? bend.bends : [...bend.bends].reverse();
  const made = madeIn(document, id);
  const fed = made.bent?.fed ?? lead;
  const marks = made.bent?.marks ?? bends.map((b) => [b.n, lead === "A" ? b.mark : b.markB] as const);
  const called = (b: string): string => calledOf(document, "bar", b);
  const limits = { gap: job?.notcher.wrapBeyond ?? job?.shop.gap ?? 1 };
  const steps =
    notches &&
    (["A", "B"] as const).flatMap((end) => notcherSteps(result, end, notches[end], limits, write, called));
  const next = made.reached("notched")
    ? undefined
    : steps
        ?.slice(done[`notcher ${id}`] ?? 0)
        .find((s) => s.kind === "cut" || s.kind === "flat" || s.kind === "wrap");
  const [mark] = marks;
  return (
    <section className={parts.questions} aria-label={WALL.bar}>
      <Answer
        question={QUESTIONS.long}
        figure={write.length(made.sawn ?? bend.blank + bend.trim.A + bend.trim.B)}
        says={made.reached("sawn") ? QUESTIONS.wasSawn : QUESTIONS.sawn}
      >
        {made.reached("sawn") && QUESTIONS.wanted}
        {QUESTIONS.lengths({ net: bend.blank, a: bend.trim.A, b: bend.trim.B, centre: bend.length }, write)}
      </Answer>
      {mark ? (
        <Answer
          question={QUESTIONS.mark}
          figure={write.length(mark[1])}
          says={
            made.reached("bent") ? QUESTIONS.wasBent(marks.length, fed) : QUESTIONS.first(marks.length, fed)
          }
        >
          {QUESTIONS.marks(marks, fed, write)}
        </Answer>
      ) : (
        <Answer question={QUESTIONS.mark} figure={QUESTIONS.noBends} says={QUESTIONS.straight}>
          {QUESTIONS.nothingToMark}
        </Answer>
      )}
      {off ? (
        <>
          <Answer question={QUESTIONS.next} figure={nameVerdict(off.verdict)} says={sayMade(off, write)} />
          {isEased(off) && <Decides />}
        </>
      ) : (
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
      )}
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

/** What a bar was made to, as far as its questions ask. */
function madeIn(document: JobDocument, id: string) {
  const { progress } = comeTo(document, id);
  const reached = (step: Progress): boolean => PROGRESS.indexOf(progress) >= PROGRESS.indexOf(step);
  const sawn = at(document, ["made", id, "to", "sawn", "length"]);
  const bent = at(document, ["made", id, "to", "bent"]) as unknown as BentTo | undefined;
  const inTurn = bent && (bent.fed === "A" ? bent.bends : [...bent.bends].reverse());
  return {
    reached,
    ...(typeof sawn === "number" ? { sawn } : {}),
    ...(bent && inTurn ? { bent: { fed: bent.fed, marks: inTurn.map((b) => [b.n, b.mark] as const) } } : {}),
  };
}

function Without({ results, id }: { readonly results: Results; readonly id: string }) {
  const bar = results.without.find((w) => w.id === id);
  return <p className={parts.wait}>{bar ? QUESTIONS.noCard : QUESTIONS.waiting}</p>;
}
