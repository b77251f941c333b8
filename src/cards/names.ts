import type { Plan } from "../core/plan/index.ts";
import { handOf } from "./hand.ts";

const known = new WeakMap<Plan, ReadonlyMap<string, string>>();

/**
 * What a person calls a bar: its label, and where several bars have that label, with its hand or its number in the
 * overview. What is no bar keeps its own name.
 */
export function calledIn(plan: Plan): (id: string) => string {
  let names = known.get(plan);
  if (!names) {
    names = namesOf(plan);
    known.set(plan, names);
  }
  const all = names;
  return (id) => all.get(id) ?? id;
}

function namesOf(plan: Plan): ReadonlyMap<string, string> {
  const bars = Object.entries(plan.job.bars).map(([id, { label }], i) => ({ id, label, i }));
  const counts = (names: readonly string[]): ReadonlyMap<string, number> => {
    const out = new Map<string, number>();
    for (const name of names) out.set(name, (out.get(name) ?? 0) + 1);
    return out;
  };
  const labels = counts(bars.map((b) => b.label));
  const handed = bars.map((b) => {
    const hand = handOf(plan, b.id);
    return (labels.get(b.label) ?? 0) > 1 && hand ? `${b.label}, ${hand}` : b.label;
  });
  const still = counts(handed);
  return new Map(
    bars.map(({ id, i }, k) => {
      const name = handed[k] ?? id;
      return [id, (still.get(name) ?? 0) > 1 ? `${name} (bar ${numberIn(plan, id) ?? i + 1})` : name];
    }),
  );
}

/** The number of a bar in the overview, from 1; undefined for one without a geometry. */
export function numberIn(plan: Plan, id: string): number | undefined {
  const i = plan.bars.findIndex((bar) => bar.id === id);
  return i < 0 ? undefined : i + 1;
}
