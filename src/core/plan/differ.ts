import type { Job } from "../job/index.ts";
import { stands } from "../layout/index.ts";
import { judgeMade, type MadeVerdict } from "../made/index.ts";
import { dist } from "../space/index.ts";
import { placesOf } from "../trestles/index.ts";
import { gravestFirst, limitsOf, wantOf } from "./change.ts";
import { madeOf, STEP } from "./made.ts";
import { type BarPlan, type Plan, planJob } from "./plan.ts";

/** Places nearer than this are the same (mm): the design's. */
const SAME_PLACE = 0.05;

/**
 * Bars that are made, loose, and not what is wanted now: each judged against the plan as it is, gravest first. Those
 * that can be used as they are, are left out; so is what stays where it is in the car.
 */
export function notAsWanted(plan: Plan): readonly MadeVerdict[] {
  const { bars, asBuilt = {} } = plan.job;
  const made = Object.keys(bars).filter((id) => {
    const progress = bars[id]?.progress ?? "laid out";
    return STEP[progress] && !stands(progress);
  });
  if (made.length === 0) return [];
  // what is wanted of a bar is not what was read of it
  const free = Object.fromEntries(Object.entries(asBuilt).filter(([id]) => !made.includes(id)));
  const isSame = Object.keys(free).length === Object.keys(asBuilt).length;
  const wanted = isSame ? plan : planJob({ ...plan.job, asBuilt: free }, plan);
  const judged = made.flatMap((id) => {
    const want = wanted.byId.get(id);
    const verdict = want && judgedOnce(plan, wanted, want);
    return verdict ? [verdict] : [];
  });
  return gravestFirst(judged.filter((v) => v.verdict !== "good"));
}

/** By the very bar that is wanted, the last judgement of it, and what it was judged by. */
const judgements = new WeakMap<BarPlan, { readonly by: string; readonly verdict: MadeVerdict | undefined }>();

/** An edit elsewhere leaves the bar that is wanted the very same: it is not judged again. */
function judgedOnce(plan: Plan, wanted: Plan, want: BarPlan): MadeVerdict | undefined {
  const { id } = want;
  const { bars, made, asBuilt, dies, shop } = plan.job;
  const by = JSON.stringify([bars[id]?.progress, made?.[id], asBuilt?.[id], dies, shop.gap]);
  const known = judgements.get(want);
  if (known?.by === by) return known.verdict;
  const bar = madeOf(plan, id);
  const verdict = bar && judgeMade(bar, wantOf(wanted, want), limitsOf(plan.job));
  judgements.set(want, { by, verdict });
  return verdict;
}

/** The plan of a job as if nothing were fast in the car: where bars are wanted. */
export function asIfLoose(job: Job, near: Plan): Plan {
  const { bars, asBuilt = {} } = job;
  const fast = Object.keys(bars).filter((id) => stands(bars[id]?.progress));
  const loose = Object.entries(bars).map(([id, bar]) =>
    fast.includes(id) ? [id, { ...bar, progress: "notched" as const }] : [id, bar],
  );
  const free = Object.fromEntries(Object.entries(asBuilt).filter(([id]) => !fast.includes(id)));
  return planJob({ ...job, bars: Object.fromEntries(loose), asBuilt: free }, near);
}

/** Bars fast in the car in both that would be elsewhere by `after` than by `before`, were they loose. */
export function wouldMove(before: Plan, after: Job): readonly string[] {
  const isFast = ({ bars }: Job, id: string): boolean => stands(bars[id]?.progress);
  const fast = Object.keys(before.job.bars).filter((id) => isFast(before.job, id) && isFast(after, id));
  if (fast.length === 0) return [];
  const was = asIfLoose(before.job, before);
  const is = asIfLoose(after, was);
  return fast.filter((id) => !isSamePlace(was.byId.get(id), is.byId.get(id)));
}

/** Whether a bar's ends and corners are at the same places in both. */
export function isSamePlace(a: BarPlan | undefined, b: BarPlan | undefined): boolean {
  if (a === b || !a || !b) return a === b;
  const [from, to] = [placesOf(a.bar.centreline), placesOf(b.bar.centreline)];
  return from.length === to.length && from.every((p, i) => dist(p, to[i] ?? p) <= SAME_PLACE);
}
