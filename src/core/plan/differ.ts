import { placesOf } from "../bar/index.ts";
import { stands } from "../job/index.ts";
import type { ResolvedBar } from "../layout/index.ts";
import { judgeMade, type MadeVerdict } from "../made/index.ts";
import { isSameFigure } from "../numeric/index.ts";
import { dist, type Vec } from "../space/index.ts";
import { asWantedNow, gravestFirst, limitsOf, wantOf } from "./change.ts";
import { madeOf, STEP } from "./made.ts";
import type { BarPlan, Plan } from "./plan.ts";

/**
 * Bars that are made, loose, and not what is wanted now: each judged against the plan as it is, gravest first. Those
 * that can be used as they are, are left out; so is what stays where it is in the car.
 */
export function notAsWanted(plan: Plan): readonly MadeVerdict[] {
  const { bars } = plan.job;
  const made = Object.keys(bars).filter((id) => {
    const progress = bars[id]?.progress ?? "laid out";
    return STEP[progress] && !stands(progress);
  });
  if (made.length === 0) return [];
  const wanted = asWantedNow(plan, (id) => made.includes(id));
  const judged = made.flatMap((id) => {
    const want = wanted.byId.get(id);
    const verdict = want && judgedOnce(plan, wanted, want);
    return verdict ? [verdict] : [];
  });
  return gravestFirst(judged.filter((v) => v.verdict !== "good"));
}

/** A judgement, and what it was made by: what is known of the bar and how the shop works, and the bar as it is planned. */
interface Judgement {
  readonly by: string;
  readonly planned: BarPlan | undefined;
  readonly verdict: MadeVerdict | undefined;
}

/** By the very bar that is wanted, the last judgement of it. */
const judgements = new WeakMap<BarPlan, Judgement>();

/** An edit elsewhere leaves the bar that is wanted the very same: it is not judged again. */
function judgedOnce(plan: Plan, wanted: Plan, want: BarPlan): MadeVerdict | undefined {
  const { id } = want;
  const { bars, made, asBuilt, dies, shop, notcher } = plan.job;
  const by = JSON.stringify([bars[id], made?.[id], asBuilt?.[id], dies, shop, notcher]);
  const planned = plan.byId.get(id);
  const known = judgements.get(want);
  if (known?.by === by && known.planned === planned) return known.verdict;
  const bar = madeOf(plan, id);
  const verdict = bar && judgeMade(bar, wantOf(wanted, want), limitsOf(plan.job));
  judgements.set(want, { by, planned, verdict });
  return verdict;
}

/** Bars fast in the car that are elsewhere than they are wanted, with their ends and corners as wanted. */
export function elsewhere(plan: Plan): readonly { readonly bar: string; readonly wanted: readonly Vec[] }[] {
  return plan.bars.flatMap(({ id, bar }) => {
    const wanted = stands(plan.job.bars[id]?.progress) ? wantedIn(plan, id) : undefined;
    return wanted && !isSamePlace(bar, wanted) ? [{ bar: id, wanted: placesOf(wanted.centreline) }] : [];
  });
}

/** Bars fast in the car before and after an edit that it wants elsewhere than they were wanted. */
export function wouldMove(before: Plan, after: Plan): readonly string[] {
  const isFast = ({ job }: Plan, id: string): boolean => stands(job.bars[id]?.progress);
  return Object.keys(before.job.bars).filter(
    (id) =>
      isFast(before, id) && isFast(after, id) && !isSamePlace(wantedIn(before, id), wantedIn(after, id)),
  );
}

/** A bar where it is wanted, wherever it is in the car. */
const wantedIn = ({ layout }: Plan, id: string): ResolvedBar | undefined =>
  (layout.wanted ?? layout).byId.get(id);

/** Whether a bar's ends and corners are at the same places in both. */
function isSamePlace(a: ResolvedBar | undefined, b: ResolvedBar | undefined): boolean {
  if (a === b || !a || !b) return a === b;
  const [from, to] = [placesOf(a.centreline), placesOf(b.centreline)];
  return from.length === to.length && from.every((p, i) => isSameFigure(dist(p, to[i] ?? p), 0));
}
