import {
  asWanted,
  judgeTacked,
  type Plan,
  type TackedAnswer,
  tackReading,
} from "../../../core/plan/index.ts";
import { type TackReading, tackedBars } from "../../../core/trestles/index.ts";

/** How a tacked bar stands, from the readings that the job keeps of it, and which cards that changes. */
export interface TackedAsk {
  readonly bar: string;
}

export interface TackedReply {
  /** Readings that count, by their index in the job's list. */
  readonly counted: readonly number[];
  /** What each of those would read on the bars as planned (mm). */
  readonly planned: readonly number[];
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
    planned: plannedReads(
      asWanted(plan, bar),
      good.map((g) => g.reading),
    ),
    waiting: read.flatMap(({ index, reading }) => (reading ? [] : [index])),
    ...(judged === undefined ? {} : { judged }),
    kept: plan.job.asBuilt?.[bar] !== undefined,
  };
}

/** Readings that weigh next to nothing leave the bars where they were to be: what is then computed is what was planned. */
function plannedReads(wanted: Plan, readings: readonly TackReading[]): readonly number[] {
  const bars = wanted.bars.map(({ id, bar }) => ({
    id,
    line: bar.centreline,
    od: bar.tube.od,
    heldB: false,
  }));
  const spots = (r: TackReading) => (r.what === "tape" ? [r.from, r.to] : [r.of]);
  return readings.map((reading) => {
    const named = new Set(spots(reading).flatMap((s) => ("bar" in s ? [s.bar] : [])));
    const light = { ...reading, sd: 1e9 };
    const scatter = { mark: 1, angle: 0.01, turn: 0.01, foot: 1, lean: 0.01 };
    const found = tackedBars(
      bars.filter((b) => named.has(b.id)),
      [light],
      scatter,
      1,
    );
    return found?.readings[0]?.computed ?? Number.NaN;
  });
}
