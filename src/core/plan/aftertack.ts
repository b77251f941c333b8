import type { Finding } from "../findings/index.ts";
import type { Job, Progress } from "../job/types.ts";
import { type CardChange, type CardFigures, cardChanges, shapeOf } from "../trestles/index.ts";
import { type BarPlan, type Plan, planJob } from "./plan.ts";

/** What a change of what was built does to the cards. */
export interface Restated {
  readonly plan: Plan;
  /** Bars not yet sawn whose card changed by more than the shop's gap: print these anew. */
  readonly stale: readonly CardChange[];
  /** Bars sawn, bent, notched or fitted that it changed for, and how far they have come: what it costs them. */
  readonly cut: readonly (CardChange & { readonly progress: Progress })[];
  /** Bars without geometry now, and what is said of them. */
  readonly lost: readonly string[];
  readonly why: readonly Finding[];
}

/**
 * The plan with bars as they were built, and which cards that changes by more than the shop's gap. Bars that are
 * tacked, or that `asBuilt` itself knows, are what they are and have no card to change.
 */
export function restate(
  before: Plan,
  asBuilt: NonNullable<Job["asBuilt"]>,
  gap = before.job.shop.gap,
): Restated {
  const { job } = before;
  const known = { ...job.asBuilt, ...asBuilt };
  const plan = planJob({ ...job, asBuilt: known }, before);
  const old = new Map(before.bars.map((b) => [b.id, figuresOf(b)]));
  const progress = (id: string): Progress => job.bars[id]?.progress ?? "laid out";
  const made = (id: string): boolean => id in known || ["tacked", "welded"].includes(progress(id));
  const open = plan.bars.filter((b) => !made(b.id) && before.byId.get(b.id) !== b);
  const changed = cardChanges(old, open.map(figuresOf)).filter((c) => c.most > gap);
  const lost = before.bars.filter((b) => !plan.byId.has(b.id)).map((b) => b.id);
  return {
    plan,
    stale: changed.filter((c) => progress(c.id) === "laid out"),
    cut: changed
      .filter((c) => progress(c.id) !== "laid out")
      .map((c) => ({ ...c, progress: progress(c.id) })),
    lost,
    why: plan.findings.filter((f) => f.bar !== undefined && lost.includes(f.bar)),
  };
}

const figuresOf = ({ id, bar, bend, copes }: BarPlan): CardFigures => ({
  id,
  blank: bend.blank,
  marks: bend.bends.map((b) => b.mark),
  shape: shapeOf(bar.centreline),
  copes: { A: copes.A.cope, B: copes.B.cope },
});
