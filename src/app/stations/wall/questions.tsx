import { useMemo } from "react";
import { PROGRESS, type Progress } from "../../../core/job/index.ts";
import type { AsMade } from "../../../core/plan/index.ts";
import { isEased, nameVerdict, QUESTIONS, sayMade, WALL } from "../../../words/index.ts";
import { Answer, Caution, Decides, parts, writeIn } from "../../kit/index.ts";
import { useMade } from "../../made/index.ts";
import type { Results } from "../../model/compute/index.ts";
import { calledOf } from "../../model/document/index.ts";
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
  const known = useMade(result);
  if (!result || !document || !known) return <Without results={results} id={id} />;
  const { bend, bar } = result;
  const lead = bar.fromEnd;
  const bends = lead === "A" ? bend.bends : [...bend.bends].reverse();
  const reached = (step: Progress): boolean => PROGRESS.indexOf(result.progress) >= PROGRESS.indexOf(step);
  const made = known.made?.bent?.made;
  const fed = made?.fed ?? lead;
  const marks = made ? marksOf(made) : bends.map((b) => [b.n, lead === "A" ? b.mark : b.markB] as const);
  const called = (b: string): string => calledOf(document, "bar", b);
  const limits = { gap: job?.notcher.wrapBeyond ?? job?.shop.gap ?? 1 };
  const steps =
    notches &&
    (["A", "B"] as const).flatMap((end) => notcherSteps(result, end, notches[end], limits, write, called));
  const next = reached("notched")
    ? undefined
    : steps
        ?.slice(done[`notcher ${id}`] ?? 0)
        .find((s) => s.kind === "cut" || s.kind === "flat" || s.kind === "wrap");
  const [mark] = marks;
  return (
    <section className={parts.questions} aria-label={WALL.bar}>
      <Answer
        question={QUESTIONS.long}
        figure={write.length(known.made?.sawn.made.length ?? bend.blank + bend.trim.A + bend.trim.B)}
        says={reached("sawn") ? QUESTIONS.wasSawn : QUESTIONS.sawn}
      >
        {reached("sawn") && QUESTIONS.wanted}
        {QUESTIONS.lengths({ net: bend.blank, a: bend.trim.A, b: bend.trim.B, centre: bend.length }, write)}
      </Answer>
      {mark ? (
        <Answer
          question={QUESTIONS.mark}
          figure={write.length(mark[1])}
          says={reached("bent") ? QUESTIONS.wasBent(marks.length, fed) : QUESTIONS.first(marks.length, fed)}
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

/** Marks that a bar was bent at, in the order of bending. */
const marksOf = ({ fed, bends }: NonNullable<AsMade["bent"]>["made"]) =>
  (fed === "A" ? bends : [...bends].reverse()).map((b) => [b.n, b.mark] as const);

function Without({ results, id }: { readonly results: Results; readonly id: string }) {
  const bar = results.without.find((w) => w.id === id);
  return <p className={parts.wait}>{bar ? QUESTIONS.noCard : QUESTIONS.waiting}</p>;
}
