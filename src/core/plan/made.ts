import { angleToSet } from "../bend/index.ts";
import { type BentTo, type Die, hasReached, type Job, type MadeTo, type Progress } from "../job/index.ts";
import { type DieNow, lengthened, type MadeBar, type MadeStep, madeBar, shapeMade } from "../made/index.ts";
import { deg, rad } from "../numeric/index.ts";
import { type BarShape, type Blank, shapeOf } from "../trestles/index.ts";
import { extent } from "../tube/index.ts";
import { shapeRead } from "./bent.ts";
import type { BarPlan, Plan } from "./plan.ts";
import { madeToOf } from "./record.ts";

/** How a bar that has come so far is judged. */
export const STEP: Readonly<Record<Progress, MadeStep | undefined>> = {
  "laid out": undefined,
  sawn: "sawn",
  bent: "bent",
  notched: "notched",
  fitted: "notched",
  tacked: "notched",
  welded: "notched",
};

const ENDS = ["A", "B"] as const;

/**
 * What a bar was made to: as the job keeps it, and what it does not keep by the job's own figures. `isWhole`: the job
 * keeps all of it. Nothing for a bar that keeps nothing and has no geometry.
 */
export function knownTo(
  plan: Plan,
  id: string,
  progress: Progress,
): { readonly to: MadeTo | undefined; readonly isWhole: boolean } {
  const kept = plan.job.made?.[id]?.to;
  const was = plan.byId.get(id);
  const reached = (p: Progress): boolean => hasReached(progress, p);
  const hasBends = was ? was.bend.bends.length > 0 : false;
  const isWhole =
    kept?.sawn !== undefined &&
    (!reached("bent") || !hasBends || kept.bent !== undefined) &&
    (!reached("notched") || ENDS.every((e) => kept.notched?.[e])) &&
    (!reached("fitted") || kept.tacked !== undefined || kept.fitted !== undefined);
  if (isWhole || !was) return { to: kept, isWhole };
  const missing = ENDS.filter((e) => !kept?.notched?.[e]);
  const own = madeToOf(plan, was, progress, missing);
  const notched = { ...own.notched, ...kept?.notched };
  return { to: { ...own, ...kept, ...(own.notched || kept?.notched ? { notched } : {}) }, isWhole };
}

/**
 * A bar that exists by a job: from what it was made to, and what was read of it where anything was. `dies`: what is
 * known of the dies now. Undefined for a bar that is only laid out.
 */
export function madeOf(plan: Plan, id: string, dies: Job["dies"] = plan.job.dies): MadeBar | undefined {
  const progress = plan.job.bars[id]?.progress ?? "laid out";
  const step = STEP[progress];
  const { to } = step ? knownTo(plan, id, progress) : {};
  if (!step || !to?.sawn) return undefined;
  const known = { ...to, ...asFelt(plan, id, to) };
  return madeBar(id, step, known, shapeKnown(plan, id, step, to, dies));
}

/**
 * Notches as they were cut where gaps were read: the readings name the cut that was made against the one on the card
 * (degrees off square, turned, its hole moved outboard).
 */
function asFelt(plan: Plan, id: string, { notched }: MadeTo): Pick<MadeTo, "notched"> {
  const { gaps = {} } = plan.job.made?.[id] ?? {};
  const ends = ENDS.flatMap((end) => {
    const [felt, cut] = [gaps[end], notched?.[end]];
    const [figured, more] = cut?.by === "hole saw" ? cut.cuts : [];
    if (!felt?.read.some((r) => !r.struck) || !cut || !figured || more) return [];
    const made = {
      ...figured,
      angle: felt.cut,
      clock: figured.clock + felt.roll,
      centre: figured.centre - felt.outboard,
    };
    return [[end, { ...cut, cuts: [made] }] as const];
  });
  return ends.length > 0 ? { notched: { ...notched, ...Object.fromEntries(ends) } } : {};
}

/** The shape by the readings on the trestles, else as it was put in the car, else by its marks and settings. */
function shapeKnown(plan: Plan, id: string, step: MadeStep, to: MadeTo, dies: Job["dies"]): BarShape {
  const { sawn, bent, notched } = to;
  const length = sawn?.length ?? 0;
  if (step === "sawn" || !bent) return shapeMade(length, undefined, undefined);
  const die = dieNow(bent, dies);
  const made: Blank = {
    shape: shapeMade(length, bent, die),
    od: sawn ? extent(sawn.tube) : 0,
    fromEnd: bent.fed,
    arcFactor: die.arcFactor,
  };
  const read = shapeRead(plan.job, id, made);
  if (read) return read;
  const was = plan.job.asBuilt?.[id] ? plan.byId.get(id) : undefined;
  return was?.bar.centreline.bends.length === bent.bends.length ? asRead(was, notched) : made.shape;
}

/** A bar as it was read in its place, ends as sawn. */
function asRead({ bar, leastBack }: BarPlan, notched: MadeTo["notched"]): BarShape {
  const over = (end: "A" | "B"): number => notched?.[end]?.over ?? bar.trim[end] - leastBack[end];
  return lengthened(shapeOf(bar.centreline), over("A"), over("B"));
}

/** What is known now of the die that a bar was bent on; what was known then, where the job no longer has it. */
function dieNow({ die: then }: BentTo, dies: Job["dies"]): DieNow {
  const found = then.id === undefined ? undefined : dies[then.id];
  const now = found?.od === then.od ? found : undefined;
  const springs = now && (now.springback !== undefined || now.tests.length > 0) ? now : undefined;
  return {
    clr: now?.clr ?? then.clr,
    mark: now?.mark ?? then.mark,
    arcFactor: now?.arcFactor ?? then.arcFactor,
    got: springs ? gotOn(springs) : gotBy(then.springback),
  };
}

/** What comes of a setting (radians): the angle to set is a straight line in the angle wanted. */
function gotOn(die: Die): DieNow["got"] {
  const [none, one] = [angleToSet(die, 0).set, angleToSet(die, 1).set];
  return (set) => (set - none) / (one - none);
}

const gotBy =
  (springback: BentTo["die"]["springback"]): DieNow["got"] =>
  (set) =>
    springback ? rad(springback.k * deg(set) + springback.c) : set;
