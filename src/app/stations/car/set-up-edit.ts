import { SET_UP, type SetUpStep } from "../../../core/job/index.ts";
import type { DoorGapPair } from "../../../core/survey/index.ts";
import { SET_UP_PAGE as SAYS } from "../../../words/index.ts";
import {
  addReading,
  at,
  type Command,
  type JobDocument,
  readAgain,
  setValue,
} from "../../model/document/index.ts";

export const GAPS = ["setUp", "doorGaps"] as const;
export type When = "before" | "after";

/** The steps that are ticked, whatever else of the job does not read. */
export function doneIn(document: JobDocument): readonly SetUpStep[] {
  const done = at(document, ["setUp", "done"]);
  return SET_UP.filter((step) => Array.isArray(done) && done.includes(step));
}

/** Ticks a step of making the car ready, or takes its tick away; ticks are kept in the order of the list. */
export function ticked(done: readonly SetUpStep[], step: SetUpStep): Command {
  const isDone = !done.includes(step);
  const next = SET_UP.filter((s) => (s === step ? isDone : done.includes(s)));
  return setValue(
    ["setUp", "done"],
    next.length > 0 ? [...next] : undefined,
    SAYS.commandTick(SAYS.done[step], isDone),
  );
}

/** Reads the gap round a door; a reading that was there already is struck, and both are kept. */
export function gapReadAt(
  pair: DoorGapPair | undefined,
  at: string,
  when: When,
  gap: number | string,
): Command {
  const earlier = pair?.[when];
  const reading = { at, when, gap };
  const name = SAYS.commandGap(at, when);
  return earlier
    ? readAgain(GAPS, earlier.index, reading, { why: SAYS.readAgain, name })
    : addReading(GAPS, reading, name);
}
