import { isByGap, type Judged } from "../../core/fit/index.ts";
import {
  type FitWords,
  GOES_IN,
  goesIn,
  goesInReasons,
  goesInSays,
  SEARCHED,
  sayForce,
  small,
  TAG,
} from "../../words/index.ts";
import type { Cure, Tag } from "./row.ts";

/** What a tag says in a few words; what was found before the last change is `was`, and is shown struck. */
export interface TagSays {
  readonly word: string;
  readonly was?: string;
  /** Why it does not go in. */
  readonly why?: string;
  readonly marks: readonly string[];
}

export function tagSays(tag: Tag, w: FitWords): TagSays {
  const marks = marksOf(tag, w);
  const { state, judged } = tag;
  if (state === "placeless") return { word: TAG.placeless, marks };
  if (state === "unseen" || !judged)
    return { word: TAG.unchecked, ...(judged ? { was: goesIn(judged, w) } : {}), marks };
  const word = goesIn(judged, w);
  if (state === "free" && !judged.past.includes("body")) return { word, marks: [TAG.noBody, ...marks] };
  return { word, ...(state === "no" ? { why: goesInSays(judged, tag.missing, w) } : {}), marks };
}

function marksOf(tag: Tag, w: FitWords): readonly string[] {
  const [a, b] = (["A", "B"] as const).map((end) => tag.weld.find((m) => m.end === end));
  const weld =
    a && b && a.before === b.before
      ? [TAG.weldBoth(w.called(a.before))]
      : [a, b].flatMap((m) => (m ? [TAG.weld(m.end, w.called(m.before))] : []));
  return [...(tag.needs ? [TAG.needs[tag.needs]] : []), ...weld];
}

/** "Move it before Dash bar" */
export const cureSays = (cure: Cure, w: FitWords): string =>
  cure.before === null ? TAG.moveLast : TAG.moveBefore(w.called(cure.before));

/** The fourth question: figure, sentence, reasons. */
export interface GoesInSays {
  readonly figure: string;
  readonly says: string;
  readonly reasons: readonly string[];
}

export function answerSays(tag: Tag | undefined, w: FitWords): GoesInSays {
  if (!tag || tag.state === "placeless") return { figure: "…", says: GOES_IN.placeless, reasons: [] };
  const { state, judged } = tag;
  if (state === "unseen" || !judged)
    return {
      figure: "?",
      says: judged ? GOES_IN.changed : GOES_IN.unchecked,
      reasons: [...(judged ? [GOES_IN.was(goesIn(judged, w))] : []), GOES_IN.number(tag.n)],
    };
  const says = goesInSays(judged, tag.missing, w);
  const reasons = [
    GOES_IN.numberPast(tag.n),
    ...goesInReasons(judged, w),
    ...(state === "no" ? [cureReason(tag, w)] : []),
  ];
  switch (state) {
    case "free":
      return { figure: GOES_IN.free, says, reasons };
    case "no":
      return { figure: GOES_IN.no, says, reasons };
    case "touches":
      return { figure: w.fine(judged.touches?.by ?? 0), says: GOES_IN.touching(small(says)), reasons };
    case "spring":
      return { ...sprungAnswer(judged, small(says), w), reasons };
  }
}

function sprungAnswer(judged: Judged, how: string, w: FitWords): Pick<GoesInSays, "figure" | "says"> {
  if (isByGap(judged)) return { figure: w.fine(judged.gap), says: GOES_IN.byGap(how) };
  const force = judged.force === undefined ? undefined : sayForce(judged.force);
  return { figure: w.fine(judged.spring), says: GOES_IN.sprung(force, how) };
}

function cureReason({ cure }: Tag, w: FitWords): string {
  if (cure === undefined) return GOES_IN.cureUnknown;
  if (cure === null) return GOES_IN.cureNone(SEARCHED);
  return GOES_IN.cure(cureSays(cure, w));
}

/** Whether a force, or that it is more than hands can do, is shown of any of these. */
export const hasForce = (tags: readonly Tag[]): boolean =>
  tags.some((t) => t.judged !== undefined && (t.judged.goesIn === "spring" || t.judged.force !== undefined));
