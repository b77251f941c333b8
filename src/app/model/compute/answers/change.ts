import type { Job } from "../../../../core/job/index.ts";
import type { MadeVerdict } from "../../../../core/made/index.ts";
import { type Change, changeOf, type Plan, recordsMissing, wouldMove } from "../../../../core/plan/index.ts";
import type { Records } from "../../document/index.ts";

/** An edit that waits: the job as it would be, and the bars that the edit itself takes back by a step or more. */
export interface ChangeAsk {
  readonly after: Job;
  readonly back: readonly string[];
}

/** What an edit does to the bars that are made, gravest first. */
export interface MadeChange {
  readonly bars: readonly MadeVerdict[];
  /** Made, and nothing asks for them any more. */
  readonly gone: readonly string[];
  /** Made, and now without a place. */
  readonly lost: readonly string[];
}

export interface ChangeReply {
  /** With the bars that are fast in the car left where they are. */
  readonly stay: MadeChange;
  /** Bars fast in the car that would move if they were cut loose. */
  readonly fast: readonly string[];
  /** With those cut loose and moved; absent where there are none. */
  readonly loose?: MadeChange;
  /** What bars were made to, that the job does not keep yet. */
  readonly records: Records;
}

export function change(plan: Plan, { after, back }: ChangeAsk): ChangeReply {
  const own = new Set(back);
  const judged = (loose: readonly string[]): MadeChange =>
    without(changeOf(plan, after, new Set(loose)), own);
  const fast = wouldMove(plan, after).filter((id) => !own.has(id));
  return {
    stay: judged(back),
    fast,
    ...(fast.length > 0 ? { loose: judged([...back, ...fast]) } : {}),
    records: [...recordsMissing(plan)],
  };
}

/** A bar that the edit itself takes back is not judged by it. */
const without = ({ bars, gone, lost }: Change, own: ReadonlySet<string>): MadeChange => ({
  bars: bars.filter(({ bar }) => !own.has(bar)),
  gone: gone.filter((id) => !own.has(id)),
  lost: lost.filter((id) => !own.has(id)),
});
