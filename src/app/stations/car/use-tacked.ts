import { useMemo } from "react";
import type { Fits } from "../../../words/index.ts";
import { asRead, sayLeftOut, sayOffPlan, saySlip, TACKED, WANTED } from "../../../words/index.ts";
import { mmOf, type Write, writeIn } from "../../kit/index.ts";
import type { AnswerOf } from "../../model/compute/index.ts";
import { at, type JobDocument } from "../../model/document/index.ts";
import { useAnswer, useApp } from "../../model/state/index.ts";
import { asTyped, type Draft, tackSizeOf } from "../../readings/index.ts";
import type { NextRead } from "./next-reads.ts";

type TackedAnswer = NonNullable<AnswerOf<"tacked">>;

/** What is known of a tacked bar from the readings that the job keeps of it. */
export interface TackedState {
  readonly answer: TackedAnswer | undefined;
  /** Absent before the first reading, and where no bar near the planned one gives such readings. */
  readonly found: Exclude<NonNullable<TackedAnswer["judged"]>, "none"> | undefined;
  readonly isFresh: boolean;
  /** How each reading differs from the plan, by its index in the job's list. */
  readonly fits: ReadonlyMap<number, Fits>;
  /** The greatest of those differences: what the shop saw. */
  readonly off: string;
  readonly write: Write;
}

/** What a reading of a tacked bar should read by the plan, as it would be typed. */
export function useTackWanted(bar: string, draft: Draft, write: Write): NextRead["wanted"] {
  const size = tackSizeOf(draft);
  const value = useAnswer("tackWanted", size && { bar, size })?.answer;
  if (value === undefined) return undefined;
  const typed = asTyped(value, draft.kind, write);
  return { value: typed, says: WANTED.planned(asRead(typed, draft.kind)) };
}

export function useTacked(bar: string, document: JobDocument): TackedState {
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const answered = useAnswer(
    "tacked",
    useMemo(() => ({ bar }), [bar]),
  );
  const answer = answered?.answer;
  const found = answer?.judged === "none" ? undefined : answer?.judged;
  return useMemo(() => {
    const state = { answer, found, isFresh: answered?.isFresh ?? false, write };
    const fits = new Map<number, Fits>();
    if (!answer) return { ...state, fits, off: "" };
    /** What is said of a tape is said as it reads, with what of it was held. */
    const held = (index: number): number => mmOf(at(document, ["made", bar, "tacked", index, "mark"])) ?? 0;
    for (const i of answer.waiting) fits.set(i, { ok: true, says: TACKED.waiting });
    for (const slip of answer.slipped)
      fits.set(slip.index, {
        ok: false,
        says: sayLeftOut(write.length(slip.expected), saySlip(slip.slip)),
      });
    let most = { by: 0, says: sayOffPlan(0, "", write.length) };
    for (const [k, index] of answer.counted.entries()) {
      const [reading, planned] = [found?.found.readings[k], answer.planned[k]];
      if (!reading || planned === undefined) continue;
      const by = reading.read - planned;
      const kind = String(at(document, ["made", bar, "tacked", index, "what"]));
      const says = sayOffPlan(by, kind, write.length);
      const isOff = found?.found.suspect === k;
      fits.set(index, {
        ok: !isOff,
        says: isOff
          ? TACKED.again(says, reading.read + held(index), reading.computed + held(index), write)
          : says,
      });
      if (Math.abs(by) > Math.abs(most.by)) most = { by, says };
    }
    return { ...state, fits, off: most.says };
  }, [answer, found, answered?.isFresh, write, document, bar]);
}
