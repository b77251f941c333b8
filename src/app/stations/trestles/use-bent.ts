import { useMemo } from "react";
import type { Fits } from "../../../words/index.ts";
import { sayLeftOut, saySlip, TO_READ } from "../../../words/index.ts";
import { type Write, writeIn } from "../../kit/index.ts";
import type { AnswerOf } from "../../model/compute/index.ts";
import { useAnswer, useApp } from "../../model/state/index.ts";

type TrestlesAnswer = NonNullable<AnswerOf<"trestles">>;
export type Judged = Exclude<NonNullable<TrestlesAnswer["judged"]>, "none">;

/** What is known of the bent bar from the readings that the job keeps of it. */
export interface Bent {
  readonly answer: TrestlesAnswer | undefined;
  /** Absent before the first reading, and where no bar near the planned one gives such readings. */
  readonly judged: Judged | undefined;
  readonly isFresh: boolean;
  /** How each reading fits, by its index in the job's list. */
  readonly fits: ReadonlyMap<number, Fits>;
  readonly write: Write;
}

export function useBent(bar: string): Bent {
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const answered = useAnswer(
    "trestles",
    useMemo(() => ({ bar }), [bar]),
  );
  const answer = answered?.answer;
  const judged = answer?.judged === "none" ? undefined : answer?.judged;
  const fits = useMemo(() => fitsOf(answer, judged, write), [answer, judged, write]);
  return { answer, judged, isFresh: answered?.isFresh ?? false, fits, write };
}

function fitsOf(
  answer: TrestlesAnswer | undefined,
  judged: Judged | undefined,
  write: Write,
): ReadonlyMap<number, Fits> {
  const out = new Map<number, Fits>();
  for (const { index, why } of answer?.wrong ?? [])
    out.set(index, { ok: false, says: TO_READ.notCounted(why) });
  for (const slip of answer?.slipped ?? [])
    out.set(slip.index, { ok: false, says: sayLeftOut(write.length(slip.expected), saySlip(slip.slip)) });
  for (const [k, index] of (answer?.counted ?? []).entries()) {
    const reading = judged?.bent.readings[k];
    if (!reading) continue;
    const isOff = judged?.bent.suspect === k;
    const says = isOff ? TO_READ.suspect : TO_READ.within(Math.abs(reading.normalized));
    out.set(index, { ok: !isOff, says });
  }
  return out;
}
