import { type Job, type Made, type Progress, stands } from "../job/index.ts";
import { judgeMade, type MadeVerdict, type Want } from "../made/index.ts";
import { deg, isSameFigure, isSameTurn } from "../numeric/index.ts";
import { sameTube } from "../tube/index.ts";
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
  /** Bars that exist, had geometry before and now have none to be held against. */
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
  const plan = asWantedNow(compared, (id) => judged.has(id));
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
    lost: [...judged].filter((id) => before.byId.has(id) && !plan.byId.has(id)),
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

/** What is wanted of a bar that `isJudged` is not what was read of it when it was made. */
export function asWantedNow(plan: Plan, isJudged: (id: string) => boolean): Plan {
  const { asBuilt = {} } = plan.job;
  const free = Object.entries(asBuilt).filter(([id]) => !isJudged(id));
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

/** Whether the cards of both say the same of how the bar is made. */
function sameFigures(a: BarPlan, b: BarPlan): boolean {
  const sizes = ({ bend }: BarPlan): number[] => [
    bend.blank,
    bend.trim.A,
    bend.trim.B,
    ...bend.bends.flatMap((x) => [x.mark, x.markB, x.clr, deg(x.angle), deg(x.set?.set ?? x.angle)]),
  ];
  const turns = ({ bend }: BarPlan): number[] => bend.bends.map((x) => deg(x.rotation));
  const [sized, turned] = [sizes(b), turns(b)];
  const ends = (["A", "B"] as const).every((end) => {
    const [c, d] = [a.copes[end].cope, b.copes[end].cope];
    return c.zeroLine === d.zeroLine && sameBacks(c.outer, d.outer) && sameBacks(c.bore, d.bore);
  });
  return (
    sameTube(a.bar.tube, b.bar.tube) &&
    a.bend.bends.length === b.bend.bends.length &&
    sizes(a).every((x, i) => isSameFigure(x, sized[i] ?? Number.NaN)) &&
    turns(a).every((x, i) => isSameTurn(x, turned[i] ?? Number.NaN)) &&
    ends
  );
}

/** Two curves of an end, line by line; NaN where nothing is cut. */
const sameBacks = (a: ArrayLike<number>, b: ArrayLike<number>): boolean =>
  a.length === b.length &&
  Array.from(a).every((x, i) => {
    const y = b[i] ?? Number.NaN;
    return isSameFigure(x, y) || (Number.isNaN(x) && Number.isNaN(y));
  });
