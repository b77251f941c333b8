import type { Fitting, Judged } from "../core/fit/index.ts";
import { EFFORT, judgeAt, newMemory } from "../core/fit/index.ts";
import type { Job } from "../core/job/index.ts";
import { fittingOf, type Plan } from "../core/plan/index.ts";

/** What all threads that judge one order share. Plain data. */
export interface FitCall {
  readonly job: Job;
  readonly order: readonly string[];
  readonly seed: number;
  /** Gap (negative) or extra length at all joints (mm). */
  readonly over: number;
  /** When to stop (ms since the epoch). */
  readonly until: number;
}

/** Bars that one thread judges after one another: one, or a pair, as a way is tried in the mirror for its twin. */
export type Unit = readonly string[];

const now = (): number => performance.timeOrigin + performance.now();

/** A call as the fit room wants it. */
export function fittingFor(plan: Plan, call: Omit<FitCall, "job" | "order">): Fitting {
  const { unusable: _, ...asPlanned } = fittingOf(plan);
  const effort = { ...EFFORT, seed: call.seed, stop: () => now() > call.until };
  return { ...asPlanned, effort, ...(call.over === 0 ? {} : { over: call.over }) };
}

/** The time so many seconds from now. */
export const inSeconds = (seconds: number): number => now() + seconds * 1000;

/**
 * The bars of an order that are asked for, a bar and its twin together. Those likely to take long come first, so that
 * no thread is left with one at the end: held at both ends, and late, with much in the way.
 */
export function unitsOf(
  { bars, twins }: Fitting,
  order: readonly string[],
  asked: readonly string[],
): readonly Unit[] {
  const units: string[][] = [];
  for (const id of order) {
    if (!asked.includes(id)) continue;
    const pair = units.find((u) => u[0] === twins.get(id));
    if (pair) pair.push(id);
    else units.push([id]);
  }
  const held = ([id]: Unit): boolean => {
    const seat = bars.find((b) => b.bar.id === id)?.bar.seat;
    return seat?.A.kind === "on" && seat.B.kind === "on";
  };
  return [...units.filter(held).reverse(), ...units.filter((u) => !held(u))];
}

/** Judges a unit's bars; the same in whatever thread. */
export function judgeUnit(
  fitting: Fitting,
  order: readonly string[],
  unit: Unit,
  told: (judged: Judged) => void,
): void {
  const own = { ...fitting, memory: newMemory() };
  for (const id of unit) told(judgeAt(own, order, id));
}
