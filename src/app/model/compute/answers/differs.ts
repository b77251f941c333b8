import type { MadeVerdict } from "../../../../core/made/index.ts";
import { asIfLoose, isSamePlace, notAsWanted, type Plan } from "../../../../core/plan/index.ts";
import { placesOf } from "../../../../core/trestles/index.ts";

type Place = readonly [number, number, number];

/** Where what is made and what is wanted now differ. */
export interface DiffersReply {
  /** Loose bars that cannot be used as they are, gravest first. */
  readonly bars: readonly MadeVerdict[];
  /** Bars fast in the car elsewhere than they are wanted: their ends and corners as wanted. */
  readonly fast: readonly { readonly bar: string; readonly wanted: readonly Place[] }[];
}

const found = new WeakMap<Plan, DiffersReply>();

/** Figured once a plan: the rail and the picture both ask. */
export function differs(plan: Plan, _ask: Readonly<Record<never, never>>): DiffersReply {
  const known = found.get(plan) ?? differsIn(plan);
  found.set(plan, known);
  return known;
}

function differsIn(plan: Plan): DiffersReply {
  const wanted = asIfLoose(plan.job, plan);
  return {
    bars: notAsWanted(plan),
    fast: plan.bars.flatMap((was) => {
      const is = wanted.byId.get(was.id);
      return isFast(plan, was.id) && is && !isSamePlace(was, is)
        ? [{ bar: was.id, wanted: placesOf(is.bar.centreline) }]
        : [];
    }),
  };
}

const FAST = new Set<string | undefined>(["fitted", "tacked", "welded"]);
const isFast = ({ job }: Plan, id: string): boolean => FAST.has(job.bars[id]?.progress);
