// biome-ignore-all lint/style/noNonNullAssertion: i counts the readings themselves; the hosts of a planned bar are planned.
import type { BentSize } from "../job/index.ts";
import type { Job } from "../job/types.ts";
import { rad } from "../numeric/index.ts";
import {
  type AsBent,
  asBent,
  type BarShape,
  type BentReading,
  type Blank,
  besidesSlips,
  couldBecome,
  expectedBent,
  type Freedom,
  freeEndOff,
  type Match,
  readingProblem,
  type Slipped,
  shapeOf,
  slipsAmong,
  type Telling,
  tellingReadings,
  type Verdict,
  verdictOn,
  type Wanted,
} from "../trestles/index.ts";
import { extent } from "../tube/index.ts";
import { hostsOf } from "./hosts.ts";
import type { BarPlan, Plan } from "./plan.ts";

/** What a bent bar turned out to be, and what can be done with it. */
export interface BentAnswer {
  readonly bent: AsBent;
  readonly verdict: Verdict;
  /** The free end, the end fed first held as wanted (mm). */
  readonly freeEnd: number;
  /** Other bars of the job that could be made of it, the best first. */
  readonly others: readonly Match[];
}

/** The bar as it leaves the bender: its ends sawn square, trim and all. */
export function blankOf({ bar, leastBack }: Pick<BarPlan, "bar" | "leastBack">): Blank {
  const shape = shapeOf(bar.centreline);
  const n = shape.straights.length - 1;
  const over = { A: bar.trim.A - leastBack.A, B: bar.trim.B - leastBack.B };
  const straights = shape.straights.map((s, i) => s + (i === 0 ? over.A : 0) + (i === n ? over.B : 0));
  return {
    shape: { ...shape, straights },
    od: extent(bar.tube),
    fromEnd: bar.fromEnd,
    arcFactor: bar.die?.arcFactor ?? 1,
  };
}

const wantedOf = ({ bar }: BarPlan, plan: Plan): Wanted => ({
  bar,
  hosts: { A: hostsOf(bar, "A", plan.layout)!, B: hostsOf(bar, "B", plan.layout)! },
});

/** Bars of the same tube and die that nobody has sawn yet. */
const candidates = (held: BarPlan, plan: Plan, job: Job): Wanted[] =>
  plan.bars
    .filter((b) => {
      const progress = job.bars[b.id]?.progress ?? "laid out";
      const same = b.bar.tubeId === held.bar.tubeId && b.bar.dieId === held.bar.dieId;
      return b.id !== held.id && same && progress === "laid out";
    })
    .map((b) => wantedOf(b, plan));

/** What the shop's work and its readings of a bent bar scatter by: one standard deviation each (mm, radians). */
export const habitsOf = ({ shop: { errors } }: Pick<Job, "shop">) => ({
  habits: { mark: errors.mark, angle: rad(errors.angle), turn: rad(errors.turn) },
  sds: { tape: errors.tape, finder: rad(errors.slope) },
});

/**
 * A bent bar judged by what was read of it: what it is, what to do with it, and what else it could become.
 * Undefined where no bar near the wanted one gives such readings. Units: mm, radians.
 */
export function judgeBent(
  plan: Plan,
  planned: BarPlan,
  readings: readonly BentReading[],
  freedom: Freedom,
): BentAnswer | undefined {
  const { job } = plan;
  const blank = blankOf(planned);
  const { habits, sds } = habitsOf(job);
  const bent = asBent(blank, readings, habits, sds);
  if (!bent) return undefined;
  return {
    bent,
    verdict: verdictOn(bent.shape, wantedOf(planned, plan), freedom, job.shop.gap),
    freeEnd: freeEndOff(bent.shape, blank.shape, blank.fromEnd),
    others: couldBecome(bent.shape, candidates(planned, plan, job), freedom, job.shop.gap),
  };
}

/** Readings of a bent bar that a slip of unit explains; they are to be left out, and that said. */
export function bentSlips(
  plan: Plan,
  planned: BarPlan,
  readings: readonly BentReading[],
): readonly Slipped[] {
  return slipsOn(plan.job, blankOf(planned), readings);
}

function slipsOn(job: Job, blank: Blank, readings: readonly BentReading[]): readonly Slipped[] {
  const { habits, sds } = habitsOf(job);
  const expected = expectedBent(blank, readings, habits, sds);
  return slipsAmong(readings, expected, (i) => readings[i]!.what !== "angle");
}

/** A size that the job keeps, as the trestles room has it. */
export function bentReading(size: BentSize): BentReading {
  const { struck: _, note: __, ...said } = size;
  if (said.what === "angle") return { what: "angle", bend: said.bend, value: rad(said.angle) };
  const { size: value, ...what } = said;
  return { ...what, value };
}

/**
 * A bar's shape by the readings that the job keeps of it as it was bent, given what it was made to; undefined without
 * one that counts.
 */
export function shapeRead(job: Job, id: string, made: Blank): BarShape | undefined {
  const read = (job.made?.[id]?.bent ?? [])
    .filter((s) => !s.struck)
    .map(bentReading)
    .filter((r) => readingProblem(r, made.shape) === undefined);
  if (read.length === 0) return undefined;
  const { habits, sds } = habitsOf(job);
  const good = besidesSlips(read, slipsOn(job, made, read)).map((r) => r.reading);
  return good.length === 0 ? undefined : asBent(made, good, habits, sds)?.shape;
}

/** The readings that would tell most of a bent bar, given those taken. */
export function tellingOf(plan: Plan, planned: BarPlan, taken: readonly BentReading[]): readonly Telling[] {
  const { habits, sds } = habitsOf(plan.job);
  return tellingReadings(blankOf(planned), taken, habits, sds);
}
