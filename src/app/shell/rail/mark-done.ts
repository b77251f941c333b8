import { type End, hasReached } from "../../../core/job/index.ts";
import type { Mark } from "../../../core/plan/index.ts";
import { RAIL_MARKING as SAYS } from "../../../words/index.ts";
import { at, calledOf, comeTo, type JobDocument, markAllMade } from "../../model/document/index.ts";
import type { App } from "../../model/state/index.ts";

/** A step that is marked of whole bars. */
export type WholeStep = Extract<Mark, string>;

const ENDS = ["A", "B"] as const;

/**
 * Marks a step done of several bars, as one step of undo: each with what it was made to, as when it is marked by itself.
 * A bar that cannot take the step is left as it is. Returns the line that names those; undefined where there are none.
 */
export async function markDone(
  app: App,
  bars: readonly string[],
  step: WholeStep,
): Promise<string | undefined> {
  await app.computer.settled();
  const { job, results } = app.state.getState();
  if (!job || bars.length === 0) return undefined;
  const { document } = job;
  const left: string[] = [];
  const made: Parameters<typeof markAllMade>[0][number][] = [];
  for (const bar of bars) {
    const why = whyNot(document, bar, step, results.bars.get(bar)?.bend.bends.length);
    const told =
      why === undefined ? (await app.computer.ask("marked", { bar, mark: step }))?.answer : undefined;
    const cut = told && severalCuts(document, bar, told.to.notched);
    if (told && cut === undefined) made.push([bar, told]);
    else left.push(SAYS.one(calledOf(document, "bar", bar), why ?? cut ?? SAYS.why.noPlace));
  }
  // another hand, or another device, was quicker: what was figured is of a job that is no more
  if (app.state.getState().job?.document !== document) return markDone(app, bars, step);
  if (made.length > 0) app.do.run(markAllMade(made, SAYS.step(made.length, step)));
  return left.length > 0 ? SAYS.left(left.join(", ")) : undefined;
}

function whyNot(
  document: JobDocument,
  bar: string,
  step: WholeStep,
  bends: number | undefined,
): string | undefined {
  const { progress } = comeTo(document, bar);
  if (bends === undefined) return SAYS.why.noPlace;
  if (hasReached(progress, step)) return SAYS.why.already(progress);
  return step === "bent" && bends === 0 ? SAYS.why.straight : undefined;
}

type Notched = { readonly [E in End]?: object };

/** An end that is notched in several cuts, and of which nothing is kept: which of them were made is asked at the Notcher. */
function severalCuts(document: JobDocument, bar: string, notched: Notched | undefined): string | undefined {
  for (const end of ENDS) {
    const cuts = (notched?.[end] as { readonly cuts?: readonly unknown[] } | undefined)?.cuts?.length ?? 0;
    const isKept = at(document, ["made", bar, "to", "notched", end]) !== undefined;
    if (cuts > 1 && !isKept) return SAYS.why.notches(end, cuts);
  }
  return undefined;
}
