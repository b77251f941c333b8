import type { MadeVerdict } from "../../../../core/made/index.ts";
import { elsewhere, notAsWanted, type Plan } from "../../../../core/plan/index.ts";

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
  const known = found.get(plan) ?? { bars: notAsWanted(plan), fast: elsewhere(plan) };
  found.set(plan, known);
  return known;
}
