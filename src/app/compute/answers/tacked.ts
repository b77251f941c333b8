import { judgeTacked, type Plan, type TackedAnswer, tackReading } from "../../../core/plan/index.ts";

/** How a tacked bar stands, from the readings that the job keeps of it, and which cards that changes. */
export interface TackedAsk {
  readonly bar: string;
}

export interface TackedReply {
  /** Readings that count, by their index in the job's list. */
  readonly counted: readonly number[];
  /** Readings of points that have no place yet. */
  readonly waiting: readonly number[];
  /** Absent before the first reading; "none" where no bar near the wanted one gives such readings. */
  readonly judged?: TackedAnswer | "none";
  /** Bars that lie where it says in the job, and how far this one's places are from what is kept (mm). */
  readonly kept: boolean;
}

export function tacked(plan: Plan, { bar }: TackedAsk): TackedReply | undefined {
  if (!plan.byId.has(bar)) return undefined;
  const sizes = plan.job.made?.[bar]?.tacked ?? [];
  const read = sizes.flatMap((size, index) =>
    size.struck ? [] : [{ index, reading: tackReading(size, plan.places.job.points) }],
  );
  const good = read.flatMap(({ index, reading }) => (reading ? [{ index, reading }] : []));
  const judged =
    good.length === 0
      ? undefined
      : (judgeTacked(
          plan,
          bar,
          good.map((g) => g.reading),
        ) ?? "none");
  return {
    counted: good.map((g) => g.index),
    waiting: read.flatMap(({ index, reading }) => (reading ? [] : [index])),
    ...(judged === undefined ? {} : { judged }),
    kept: plan.job.asBuilt?.[bar] !== undefined,
  };
}
