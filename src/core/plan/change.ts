import type { Job, Made, Progress } from "../job/index.ts";
import { stands } from "../layout/index.ts";
import { judgeMade, type MadeVerdict, type Want } from "../made/index.ts";
import { deg } from "../numeric/index.ts";
import { sizeOf } from "../tube/index.ts";
import { hostsOf } from "./hosts.ts";
import { knownTo, madeOf, STEP } from "./made.ts";
import { type BarPlan, type Plan, planJob } from "./plan.ts";
import { madeToOf } from "./record.ts";

/** What a change of the job does to the bars that exist. */
export interface Change {
  /** Bars that exist and that it touches, gravest first. */
  readonly bars: readonly MadeVerdict[];
  /** Bars that exist and that nothing asks for any more. */
  readonly gone: readonly string[];
  /** Bars that exist and now have no geometry to be held against. */
  readonly lost: readonly string[];
  /** The job as it is wanted now, on bars that stay where they are. */
  readonly plan: Plan;
}

const GRAVE = ["make again", "unknown", "notch again", "ease", "saw off", "good"] as const;

/** How far a bar may be put from where it is wanted (mm): as on the trestles. */
const FREEDOM = { slide: 10, aside: 10 };

/**
 * Judges every bar that exists by `before` (its progress, what it was made to, what was read of it) against what `after`
 * wants. What is fitted or tacked stays and is not judged, and what lands on it lands where it is, but for the bars
 * named in `loose`. A bar none of whose figures changes is left out. Gravest first.
 */
export function changeOf(before: Plan, after: Job, loose: ReadonlySet<string> = new Set()): Change {
  const progress = (id: string): Progress => before.job.bars[id]?.progress ?? "laid out";
  const made = Object.keys(before.job.bars).filter((id) => STEP[progress(id)]);
  const exists = made.filter((id) => Object.hasOwn(after.bars, id));
  const stays = (id: string): boolean => stands(progress(id)) && !loose.has(id);
  const judged = new Set(exists.filter((id) => !stays(id)));
  const wanted = onWhatStands(before, after, exists.filter(stays), loose);
  const compared = planJob(wanted, before);
  const plan = asWantedNow(compared, judged);
  const changed = [...judged].filter((id) => {
    const [was, now] = [before.byId.get(id), compared.byId.get(id)];
    return !(was && now && (was === now || sameFigures(was, now)));
  });
  const bars = changed.flatMap((id): MadeVerdict[] => {
    const want = plan.byId.get(id);
    const bar = want && madeOf(before, id, wanted.dies);
    return bar ? [judgeMade(bar, wantOf(plan, want), limitsOf(after))] : [];
  });
  return {
    bars: gravestFirst(bars),
    gone: made.filter((id) => !exists.includes(id)),
    lost: [...judged].filter((id) => !plan.byId.has(id)),
    plan,
  };
}

export const gravestFirst = (list: readonly MadeVerdict[]): readonly MadeVerdict[] =>
  [...list].sort((a, b) => GRAVE.indexOf(a.verdict) - GRAVE.indexOf(b.verdict));

export const limitsOf = ({ shop }: Job) => ({ freedom: FREEDOM, gap: shop.gap });

/**
 * The job as it is wanted now, with what was made by the one before: bars that stay keep their places (as they were
 * read, else as they were tacked, else as they were planned), those cut loose are no longer anywhere.
 */
function onWhatStands(before: Plan, after: Job, stay: readonly string[], loose: ReadonlySet<string>): Job {
  const made: Record<string, Made> = Object.assign(Object.create(null), before.job.made);
  for (const id of stay) {
    const was = before.byId.get(id);
    const known = made[id] ?? { bent: [], tacked: [], gaps: {}, past: [] };
    if (was) made[id] = { ...known, to: { ...madeToOf(before, was, "tacked", []), ...known.to } };
  }
  const bars = Object.fromEntries(
    Object.entries(after.bars).map(([id, bar]) => {
      const had = before.job.bars[id];
      if (!had) return [id, bar];
      const progress = loose.has(id) && stands(had.progress) ? "notched" : had.progress;
      const { progress: _, ...rest } = bar;
      return [id, progress === bar.progress ? bar : { ...rest, ...(progress ? { progress } : {}) }];
    }),
  );
  const asBuilt = Object.fromEntries(Object.entries(after.asBuilt ?? {}).filter(([id]) => !loose.has(id)));
  return { ...after, bars, made, asBuilt };
}

/** What is wanted of a bar is not what was read of it when it was made. */
function asWantedNow(plan: Plan, judged: ReadonlySet<string>): Plan {
  const { asBuilt = {} } = plan.job;
  const free = Object.entries(asBuilt).filter(([id]) => !judged.has(id));
  return free.length === Object.keys(asBuilt).length
    ? plan
    : planJob({ ...plan.job, asBuilt: Object.fromEntries(free) }, plan);
}

/**
 * What bars were made to that a job says are made, without keeping to what: by its own figures, by ID. To be written
 * with the first edit, before it is applied.
 */
export function recordsMissing(plan: Plan): ReadonlyMap<string, NonNullable<Made["to"]>> {
  const found = new Map<string, NonNullable<Made["to"]>>();
  for (const [id, { progress = "laid out" }] of Object.entries(plan.job.bars)) {
    if (progress === "laid out") continue;
    const { to, isWhole } = knownTo(plan, id, progress);
    if (to && !isWhole) found.set(id, to);
  }
  return found;
}

export function wantOf(plan: Plan, { bar, copes, bend }: BarPlan): Want {
  const hosts = { A: hostsOf(bar, "A", plan.layout) ?? [], B: hostsOf(bar, "B", plan.layout) ?? [] };
  return { bar, copes, hosts, net: bend.blank, allowance: bend.trim };
}

/** Figures that differ by less are the same: the design's, mm and degrees. */
const SAME = 0.05;

function sameFigures(a: BarPlan, b: BarPlan): boolean {
  const near = (x: number, y: number): boolean => Math.abs(x - y) < SAME;
  const all = (x: ArrayLike<number>, y: ArrayLike<number>): boolean =>
    x.length === y.length &&
    Array.from(x).every((v, i) => near(v, y[i] ?? Number.NaN) || (Number.isNaN(v) && Number.isNaN(y[i])));
  const [t, u] = [sizeOf(a.bar.tube), sizeOf(b.bar.tube)];
  const sizes = (p: BarPlan): number[] => [p.bend.blank, p.bend.trim.A, p.bend.trim.B];
  const bends = (p: BarPlan): number[] =>
    p.bend.bends.flatMap((x) => [x.mark, x.markB, x.clr, deg(x.angle), deg(x.rotation)]);
  const sets = (p: BarPlan): number[] => p.bend.bends.map((x) => deg(x.set?.set ?? x.angle));
  const ends = ["A", "B"] as const;
  return (
    near(t.od, u.od) &&
    near(t.wall, u.wall) &&
    a.bar.tube.material === b.bar.tube.material &&
    all(sizes(a), sizes(b)) &&
    all(bends(a), bends(b)) &&
    all(sets(a), sets(b)) &&
    ends.every(
      (e) =>
        a.copes[e].cope.zeroLine === b.copes[e].cope.zeroLine &&
        all(a.copes[e].cope.outer, b.copes[e].cope.outer) &&
        all(a.copes[e].cope.bore, b.copes[e].cope.bore),
    )
  );
}
