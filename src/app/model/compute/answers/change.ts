import type { Job } from "../../../../core/job/index.ts";
import type { MadeVerdict } from "../../../../core/made/index.ts";
import { changeOf, type Plan, recordsMissing, wouldMove } from "../../../../core/plan/index.ts";
import type { Records } from "../../document/index.ts";

/**
 * An edit that waits: the job as it would be, the bars that the edit itself takes back by a step or more, and those
 * whose own place as built it keeps or forgets.
 */
export interface ChangeAsk {
  readonly after: Job;
  readonly back: readonly string[];
  readonly built: readonly string[];
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
  /** What bars were made to, that the job does not keep yet. */
  readonly records: Records;
}

export function change(plan: Plan, ask: ChangeAsk): ChangeReply {
  const found = changeOf(plan, ask.after, new Set(ask.back));
  const own = ownOf(ask);
  return {
    stay: withoutOwn(found, ask),
    fast: wouldMove(plan, found.plan).filter((id) => !own.has(id)),
    records: [...recordsMissing(plan)],
  };
}

/** A bar that the edit itself takes back, or says how it is, is not judged by it. */
const ownOf = ({ back, built }: ChangeAsk): ReadonlySet<string> => new Set([...back, ...built]);

export function withoutOwn({ bars, gone, lost }: MadeChange, ask: ChangeAsk): MadeChange {
  const own = ownOf(ask);
  return {
    bars: bars.filter(({ bar }) => !own.has(bar)),
    gone: gone.filter((id) => !own.has(id)),
    lost: lost.filter((id) => !own.has(id)),
  };
}
