// biome-ignore-all lint/style/noNonNullAssertion: by has three numbers for each free point, and p and k are places in that list; a loose point has a place, and a source names a reading of the job.
import { angleToSet } from "../bend/index.ts";
import { type Phrase, phrase, point } from "../findings/index.ts";
import type { Job, JobPoint } from "../job/types.ts";
import { layOut, pointsUnder } from "../layout/index.ts";
import { rad } from "../numeric/index.ts";
import { readingPhrase, type Survey } from "../survey/index.ts";
import {
  DRAWS,
  type Drawing,
  type MadeErrors,
  type MeasuredPlaces,
  madeErrors,
  type PlaceSource,
  type Sampling,
  stepsOf,
  type WantedErrors,
  wantedSteps,
} from "../trestles/index.ts";
import { extent } from "../tube/index.ts";
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

/** What the job's measured places hang on, as far as bars hang on them. Undefined where all of that is exact. */
function measuredPlaces({ places, layout }: Plan): MeasuredPlaces | undefined {
  const { job, survey } = places;
  const under = new Set([...pointsUnder(job).values()].flatMap((ids) => [...ids]));
  const loose = Object.entries(job.points).filter(
    ([id, p]) => p.at && under.has(id) && (survey?.points.get(id)?.sd ?? p.sd).some((s) => s > 0),
  );
  if (loose.length === 0) return undefined;
  const names = loose.flatMap(([id]) => AXES.map((axis) => `${id} ${axis}`));
  const surveyed = survey?.converged === true;
  return {
    names,
    sources: surveyed
      ? surveySources(
          job,
          survey,
          loose.map(([id]) => id),
        )
      : givenSources(loose),
    barsWith: (by) => {
      const points: Record<string, JobPoint> = { ...job.points };
      loose.forEach(([id, point], p) => {
        const [x, y, z] = point.at!;
        points[id] = { ...point, at: [x + by[3 * p]!, y + by[3 * p + 1]!, z + by[3 * p + 2]!] };
      });
      return layOut({ ...job, points }, layout).byId;
    },
  };
}

const AXES = ["x", "y", "z"] as const;
const WAYS = ["given-fore-aft", "given-out", "given-height"] as const;

const givenName = (id: string, axis: 0 | 1 | 2): Phrase => phrase(WAYS[axis], { point: point(id) });

/** Places given with an error and not surveyed: each coordinate by itself. */
const givenSources = (loose: readonly (readonly [string, JobPoint])[]): readonly PlaceSource[] =>
  loose.flatMap(([id, { sd }], p) =>
    ([0, 1, 2] as const).map((axis) => {
      const by = loose.flatMap((_, q) => [0, 1, 2].map((k) => (q === p && k === axis ? sd[axis] : 0)));
      return { name: givenName(id, axis), unit: "mm", sd: sd[axis], by } as const;
    }),
  );

function surveySources(job: Job, { joint }: Survey, ids: readonly string[]): readonly PlaceSource[] {
  const at = ids.map((id) => joint.ids.indexOf(id));
  return joint.sources.flatMap(({ of, unit, sd, by }): PlaceSource[] => {
    const own = at.flatMap((k) => [0, 1, 2].map((i) => (k < 0 ? 0 : by[3 * k + i]!)));
    if (own.every((v) => v === 0)) return [];
    const said =
      "reading" in of
        ? { name: readingPhrase(job.readings[of.reading]!), reading: of.reading }
        : { name: givenName(of.point, of.axis) };
    return [{ ...said, unit, sd, by: own }];
  });
}

/**
 * How the errors of the job's points come through in its bars, to first order and drawn by chance; empty where every
 * point that bars stand on is exact. With readings the errors are the survey's, with all that points have in common;
 * without, those given for the points, each coordinate by itself.
 */
export function placeErrors(
  plan: Plan,
  drawing: Drawing = { samples: DRAWS, seed: 1 },
): ReadonlyMap<string, WantedErrors> {
  const steps = placeSteps(plan, drawing);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same, so that it can be watched and left off: says how many of how many steps are done. */
function* placeSteps(plan: Plan, drawing: Drawing): Generator<Watched, ReadonlyMap<string, WantedErrors>> {
  const measured = measuredPlaces(plan);
  if (!measured) return new Map();
  const of = stepsOf(measured, drawing);
  const steps = wantedSteps(measured, drawing);
  for (let done = 1; ; done++) {
    const step = steps.next();
    if (step.done) return step.value;
    yield { done, of };
  }
}

/** How far a long computation has come. */
export interface Watched {
  readonly done: number;
  readonly of: number;
}

/**
 * The error budgets of bars (all that have a geometry, where `ids` is absent), a step at a time: run it in a worker,
 * show `done` of `of`, leave off between two steps. A step is one bar, or one layout of the places' errors.
 * `sampling` is of the making; the places are drawn `DRAWS` times with the same seed.
 */
export function* budget(
  plan: Plan,
  sampling: Sampling,
  ids: readonly string[] = plan.bars.map((b) => b.id),
): Generator<Watched, readonly BarErrors[]> {
  const places = placeSteps(plan, { samples: DRAWS, seed: sampling.seed });
  let before = 0;
  let wanted: ReadonlyMap<string, WantedErrors>;
  for (;;) {
    const step = places.next();
    if (step.done) {
      wanted = step.value;
      break;
    }
    before = step.value.of;
    yield { done: step.value.done, of: before + ids.length };
  }
  const out: BarErrors[] = [];
  for (const [n, id] of ids.entries()) {
    const bar = plan.byId.get(id);
    if (bar) out.push(barErrors(plan, bar, sampling, wanted.get(id)));
    yield { done: before + n + 1, of: before + ids.length };
  }
  return out;
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
  const made = madeErrors(centreline, extent(b.bar.tube), making, { ...sampling, apart: wanted?.apart ?? 0 });
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
