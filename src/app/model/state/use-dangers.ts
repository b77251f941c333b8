import { useMemo } from "react";
import { concerns, type Finding, isDanger } from "../../../core/findings/index.ts";
import { useAnswer } from "./use-answer.ts";
import { useApp } from "./use-app.ts";

const NOTHING = {};

/** A finding is the same object as long as its bar is not computed anew: its text is made once, not at each step of a drag. */
const texts = new WeakMap<Finding, string>();

function textOf(finding: Finding): string {
  const text = texts.get(finding) ?? JSON.stringify(finding);
  texts.set(finding, text);
  return text;
}

/**
 * The job's dangers: those that come with the bars at once, and those that need the whole job (a clash) as soon as they
 * are known. Until then the last ones stay beside the new: one too many for a moment, never one too few.
 */
export function useDangers(): readonly Finding[] {
  const bars = useApp((s) => s.results.bars);
  const whole = useAnswer("dangers", NOTHING);
  return useMemo(() => {
    if (whole?.isFresh) return whole.answer;
    const own = [...bars.values()].flatMap((b) => b.findings.filter(isDanger));
    const all = [...own, ...(whole?.answer ?? [])];
    return [...new Map(all.map((f) => [textOf(f), f])).values()];
  }, [bars, whole]);
}

export const dangersAt = (dangers: readonly Finding[], bar: string | null): readonly Finding[] =>
  bar === null ? dangers : dangers.filter((f) => concerns(f, bar));
