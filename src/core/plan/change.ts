import { angleToSet } from "../bend/index.ts";
import type { AsBuilt, Die, End, Job, Progress } from "../job/types.ts";
import {
  bentAt,
  judgeMade,
  type MadeBar,
  type MadeStep,
  type MadeVerdict,
  madeTo,
  type Want,
} from "../made/index.ts";
import { deg } from "../numeric/index.ts";
import { type BarShape, placesOf } from "../trestles/index.ts";
import { blankOf, shapeRead } from "./bent.ts";
import { hostsOf } from "./hosts.ts";
import { type BarPlan, type Plan, planJob } from "./plan.ts";

/** What a change of the job does to the bars that exist. */
export interface Change {
  /** Bars that exist and that it touches, gravest first. */
  readonly bars: readonly MadeVerdict[];
  /** Bars that exist and now have no geometry to be held against. */
  readonly lost: readonly string[];
  /** The job as it is wanted now, on bars that stay where they stand. */
  readonly plan: Plan;
}

/** Bars standing in the car are not moved by a plan: from here on they stay, until they are cut loose. */
const STANDS: ReadonlySet<Progress> = new Set(["fitted", "tacked", "welded"]);
const STEP: Readonly<Record<Progress, MadeStep | undefined>> = {
  "laid out": undefined,
  sawn: "sawn",
  bent: "bent",
  notched: "notched",
  fitted: "notched",
  tacked: "notched",
  welded: "notched",
};
const GRAVE = ["make again", "notch again", "ease", "saw off", "good"] as const;

/** How far a bar may be put from where it is wanted (mm): as on the trestles. */
const FREEDOM = { slide: 10, aside: 10 };

/**
 * Judges every bar that exists by `before` against what `after` wants. What is tacked stays and is not judged, and what
 * lands on it lands where it stands, but for the bars named in `loose`. A bar none of whose figures changes is left out.
 */
export function changeOf(before: Plan, after: Job, loose: ReadonlySet<string> = new Set()): Change {
  const progress = (id: string): Progress => before.job.bars[id]?.progress ?? "laid out";
  const exists = Object.keys(before.job.bars).filter((id) => STEP[progress(id)] && id in after.bars);
  const stays = (id: string): boolean => STANDS.has(progress(id)) && !loose.has(id);
  const judged = exists.filter((id) => !stays(id));
  const stand = standing(before, after, exists.filter(stays));
  const known = { ...after.asBuilt, ...stand };
  const compared = planJob({ ...after, asBuilt: known }, before);
  // What is wanted of a bar is not what was read of it when it was made.
  const free = Object.fromEntries(Object.entries(known).filter(([id]) => !judged.includes(id)));
  const plan = judged.some((id) => id in known) ? planJob({ ...after, asBuilt: free }, compared) : compared;
  const lost = judged.filter((id) => !plan.byId.has(id));
  const bars = judged.flatMap((id): MadeVerdict[] => {
    const [was, now, want] = [before.byId.get(id), compared.byId.get(id), plan.byId.get(id)];
    const step = STEP[progress(id)];
    if (!was || !want || !step || (now && sameFigures(was, now))) return [];
    const limits = { freedom: FREEDOM, gap: after.shop.gap };
    return [judgeMade(madeOf(before, was, step, want.bar.die), wantOf(plan, want), limits)];
  });
  const rank = ({ verdict }: MadeVerdict): number => GRAVE.indexOf(verdict);
  return { bars: bars.sort((a, b) => rank(a) - rank(b)), lost, plan };
}

/** Where bars stand, for `asBuilt`: as they were read, else as they were planned when they were put in. */
function standing(before: Plan, after: Job, ids: readonly string[]): Record<string, AsBuilt> {
  return Object.fromEntries(
    ids.flatMap((id): [string, AsBuilt][] => {
      const read = after.asBuilt?.[id];
      const line = before.layout.byId.get(id)?.centreline;
      return read ? [[id, read]] : line ? [[id, { path: placesOf(line) }]] : [];
    }),
  );
}

/** A bar that exists, from the plan that it was made by; `die` is what its die is known to be now. */
export function madeOf(plan: Plan, was: BarPlan, step: MadeStep, die?: Die): MadeBar {
  const { bar, copes, bend, leastBack } = was;
  const over = { A: bend.trim.A - leastBack.A, B: bend.trim.B - leastBack.B };
  const sawn = bend.blank + bend.trim.A + bend.trim.B;
  const notched: readonly End[] = step === "notched" ? ["A", "B"] : [];
  const shape = step === "sawn" ? undefined : (shapeRead(plan, was) ?? onTrueDie(was, sawn, die));
  return madeTo({ bar, copes, sawn, over }, step, notched, shape);
}

/** The shape that its marks and settings really gave, where its die is now known to be another than was believed. */
function onTrueDie(
  { bar, bend, leastBack }: BarPlan,
  sawn: number,
  die: Die | undefined,
): BarShape | undefined {
  const was = bar.die;
  if (!was || !die || bend.bends.length === 0 || JSON.stringify(was) === JSON.stringify(die))
    return undefined;
  if (was.od !== die.od) return undefined;
  const fed = bar.fromEnd;
  const planned = blankOf({ bar, leastBack });
  return bentAt(
    sawn,
    fed,
    {
      marks: bend.bends.map((b) => (fed === "A" ? b.mark : b.markB)),
      angles: bend.bends.map((b) => gotOf(die, angleToSet(was, b.angle).set)),
      turns: planned.shape.turns,
      numbers: planned.shape.numbers,
    },
    die,
  );
}

/** What comes of a setting (radians): the angle to set is a straight line in the angle wanted. */
function gotOf(die: Die, set: number): number {
  const [none, one] = [angleToSet(die, 0).set, angleToSet(die, 1).set];
  return (set - none) / (one - none);
}

function wantOf(plan: Plan, { bar, copes, bend }: BarPlan): Want {
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
  const { tube: t } = a.bar;
  const { tube: u } = b.bar;
  const sizes = (p: BarPlan): number[] => [p.bend.blank, p.bend.trim.A, p.bend.trim.B];
  const bends = (p: BarPlan): number[] =>
    p.bend.bends.flatMap((x) => [x.mark, x.markB, x.clr, deg(x.angle), deg(x.rotation)]);
  const sets = (p: BarPlan): number[] => p.bend.bends.map((x) => deg(x.set?.set ?? x.angle));
  const ends = ["A", "B"] as const;
  return (
    near(t.od, u.od) &&
    near(t.wall, u.wall) &&
    t.material === u.material &&
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
