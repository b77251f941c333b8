import { useEffect, useState } from "react";
import type { AnswerOf, AskKind, AskOf } from "../compute/index.ts";
import { useApp, useAppItself } from "./use-app.ts";

/** What was asked of the plan, and whether the document has not changed since. */
export interface Answered<K extends AskKind> {
  readonly answer: AnswerOf<K>;
  readonly isFresh: boolean;
}

/**
 * Asks the plan beside its bars whenever it was computed anew; the last answer stays until the next one is there.
 * Undefined before the first, and while `about` is undefined.
 */
export function useAnswer<K extends AskKind>(kind: K, about: AskOf<K> | undefined): Answered<K> | undefined {
  const { computer } = useAppItself();
  const computed = useApp((s) => s.results.document);
  const document = useApp((s) => s.job?.document);
  const key = about && JSON.stringify(about);
  const [told, setTold] = useState<{ key: string; of: unknown; answer: AnswerOf<K> }>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: `about` by what it says, the plan by what it was computed of
  useEffect(() => {
    if (about === undefined || key === undefined || computed === undefined) return;
    let isOver = false;
    void computer
      .ask(kind, about)
      .then((found) => {
        if (!isOver && found) setTold({ key, of: computed, answer: found.answer });
      })
      // the engine was replaced meanwhile: its successor computes the document anew, and is asked then
      .catch(() => {});
    return () => {
      isOver = true;
    };
  }, [computer, kind, key, computed]);
  return told && told.key === key ? { answer: told.answer, isFresh: told.of === document } : undefined;
}
