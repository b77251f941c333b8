import { useMemo } from "react";
import { hasReached, type Progress } from "../../core/job/index.ts";
import type { MadeVerdict } from "../../core/made/index.ts";
import type { AsMade } from "../../core/plan/index.ts";
import { nameVerdict, QUESTIONS, sayMade } from "../../words/index.ts";
import { writeIn } from "../kit/index.ts";
import { useMade } from "../made/index.ts";
import { calledOf } from "../model/document/index.ts";
import { useApp, useAppItself, useDiffers } from "../model/state/index.ts";
import { type NotcherStep, notcherSteps, useNotches } from "../notch/index.ts";
import { useGoesIn } from "../order/index.ts";

export interface One {
  readonly question: string;
  readonly figure: string;
  readonly says: string;
  readonly why: string;
}

/** How long? Where do I mark? What do I cut next? Will it go in? */
export interface Four {
  readonly all: readonly [long: One, mark: One, next: One, goesIn: One];
  /** How the bar that is made differs from the one wanted. */
  readonly off: MadeVerdict | undefined;
  /** A force is among what is said. */
  readonly force: boolean;
  /** Looks whether it goes in, where nobody looked yet. */
  readonly look?: () => void;
}

/** The four answers of a bar; undefined while it has none. */
export function useFour(id: string): Four | undefined {
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
  if (!result || !document || !known) return undefined;
  const { bend, bar } = result;
  const reached = (step: Progress): boolean => hasReached(result.progress, step);
  const made = known.made?.bent?.made;
  const fed = made?.fed ?? bar.fromEnd;
  const bends = bar.fromEnd === "A" ? bend.bends : [...bend.bends].reverse();
  const marks = made
    ? marksOf(made)
    : bends.map((b) => [b.n, bar.fromEnd === "A" ? b.mark : b.markB] as const);
  const [mark] = marks;

  const sizes = { net: bend.blank, a: bend.trim.A, b: bend.trim.B, centre: bend.length };
  const long: One = {
    question: QUESTIONS.long,
    figure: write.length(known.made?.sawn.made.length ?? bend.blank + bend.trim.A + bend.trim.B),
    says: reached("sawn") ? QUESTIONS.wasSawn : QUESTIONS.sawn,
    why: `${reached("sawn") ? QUESTIONS.wanted : ""}${QUESTIONS.lengths(sizes, write)}`,
  };
  const where: One = mark
    ? {
        question: QUESTIONS.mark,
        figure: write.length(mark[1]),
        says: reached("bent") ? QUESTIONS.wasBent(marks.length, fed) : QUESTIONS.first(marks.length, fed),
        why: QUESTIONS.marks(marks, fed, write),
      }
    : {
        question: QUESTIONS.mark,
        figure: QUESTIONS.noBends,
        says: QUESTIONS.straight,
        why: QUESTIONS.nothingToMark,
      };
  const goesIn: One = {
    question: QUESTIONS.goesIn,
    figure: fit.figure,
    says: fit.says,
    why: fit.reasons.join(" "),
  };
  return {
    all: [long, where, off ? asMade(off) : next(), goesIn],
    off,
    force: fit.force,
    ...(fit.look ? { look: fit.look } : {}),
  };

  function asMade(verdict: MadeVerdict): One {
    const figure = nameVerdict(verdict.verdict);
    return { question: QUESTIONS.next, figure, says: sayMade(verdict, write), why: "" };
  }
  function next(): One {
    const called = (b: string): string => calledOf(document ?? {}, "bar", b);
    const limits = { gap: job?.notcher.wrapBeyond ?? job?.shop.gap ?? 1 };
    const steps =
      result &&
      notches &&
      (["A", "B"] as const).flatMap((end) => notcherSteps(result, end, notches[end], limits, write, called));
    const left = reached("notched") ? [] : steps?.slice(done[`notcher ${id}`] ?? 0);
    return { question: QUESTIONS.next, ...nextOf(left) };
  }
}

/** The next cut of the steps that are left at the notcher; undefined: they are not known yet. */
export function nextOf(left: readonly NotcherStep[] | undefined): Pick<One, "figure" | "says" | "why"> {
  if (!left) return { figure: QUESTIONS.computing, says: QUESTIONS.waiting, why: "" };
  const cut = left.find((s) => s.kind === "cut" || s.kind === "flat" || s.kind === "wrap");
  if (!cut) return { figure: QUESTIONS.allCut, says: QUESTIONS.done, why: "" };
  return {
    figure: cut.figure ?? (cut.kind === "wrap" ? QUESTIONS.wrap : QUESTIONS.square),
    says: QUESTIONS.nextStep(cut.end, cut.does),
    why: cut.says.join(" "),
  };
}

/** Marks that a bar was bent at, in the order of bending. */
const marksOf = ({ fed, bends }: NonNullable<AsMade["bent"]>["made"]) =>
  (fed === "A" ? bends : [...bends].reverse()).map((b) => [b.n, b.mark] as const);
