import { angleToSet } from "../bend/index.ts";
import type { JobPoint } from "../job/types.ts";
import { layOut } from "../layout/index.ts";
import { rad } from "../numeric/index.ts";
import { surveyJob } from "../survey/index.ts";
import {
  type MadeErrors,
  madeErrors,
  type Sampling,
  type WantedErrors,
  wantedErrors,
} from "../trestles/index.ts";
import type { BarPlan, Plan } from "./plan.ts";

/** What one bar of a plan is uncertain by. Lengths mm, angles radians; one standard deviation each. */
export interface BarErrors {
  readonly id: string;
  /** From the places that it was figured from; absent where all of them are exact. */
  readonly wanted?: WantedErrors;
  /** From the making: die and shop. */
  readonly made: MadeErrors;
  /** Of each mark and each bend angle, places and making together. */
  readonly marks: readonly number[];
  readonly angles: readonly number[];
  readonly turns: readonly number[];
  /** Of the developed length, from the places. */
  readonly length: number;
}

/**
 * How the errors of the job's points come through in its bars; empty where every point is exact. A point that readings
 * determine has the survey's ± (what its x, y, z have in common included, what points have in common with each other
 * not), else the one given for it.
 */
export function placeErrors({ job, layout }: Plan): ReadonlyMap<string, WantedErrors> {
  const loose = Object.entries(job.points).filter(([, p]) => p.at && p.sd.some((s) => s > 0));
  if (loose.length === 0) return new Map();
  const survey = job.readings.length > 0 ? surveyJob(job, layout.byId) : undefined;
  const names = loose.flatMap(([id]) => ["x", "y", "z"].map((axis) => `${id} ${axis}`));
  const covariance = loose.flatMap(([id, { sd }], p) =>
    [0, 1, 2].map((i) => {
      const row = names.map(() => 0);
      const block = survey?.points.get(id)?.covariance;
      for (const j of [0, 1, 2]) row[3 * p + j] = block ? block[i]![j]! : i === j ? sd[i]! ** 2 : 0;
      return row;
    }),
  );
  const barsWith = (by: readonly number[]) => {
    const points: Record<string, JobPoint> = { ...job.points };
    loose.forEach(([id, point], p) => {
      const [x, y, z] = point.at!;
      points[id] = { ...point, at: [x + by[3 * p]!, y + by[3 * p + 1]!, z + by[3 * p + 2]!] };
    });
    return layOut({ ...job, points }, layout).byId;
  };
  return wantedErrors({ names, covariance, barsWith });
}

/** One bar's error budget, from the shop's errors, its die and, where given, the places it was figured from. */
export function barErrors(plan: Plan, b: BarPlan, sampling: Sampling, wanted?: WantedErrors): BarErrors {
  const { mark, angle, turn } = plan.job.shop.errors;
  const { die, dieId, centreline } = b.bar;
  const springback = centreline.bends.map((bend) =>
    die ? (angleToSet(die, bend.angle, plan.job.shop.errors).sd ?? 0) : 0,
  );
  const angles = springback.map((sd) => Math.hypot(sd, rad(angle)));
  const radius = dieId === undefined ? undefined : plan.dies.get(dieId)?.radius?.clr.sd;
  const making = { mark, turn: rad(turn), angle: angles, ...(radius === undefined ? {} : { radius }) };
  const made = madeErrors(centreline, b.bar.tube.od, making, { ...sampling, apart: wanted?.apart ?? 0 });
  const both = (a: number, w: number | undefined): number => Math.hypot(a, w ?? 0);
  return {
    id: b.id,
    ...(wanted ? { wanted } : {}),
    made,
    marks: centreline.bends.map((_, i) => both(mark, wanted?.starts[i])),
    angles: angles.map((a, i) => both(a, wanted?.angles[i])),
    turns: angles.map((_, i) => (i > 0 ? both(rad(turn), wanted?.turns[i]) : 0)),
    length: wanted?.length ?? 0,
  };
}
