import { placesOf } from "../../../../core/bar/index.ts";
import type { TackSize } from "../../../../core/job/index.ts";
import {
  asWanted,
  barsIn,
  judgeTacked,
  type Plan,
  type TackedAnswer,
  tackReading,
  tackSlips,
} from "../../../../core/plan/index.ts";
import type { Vec } from "../../../../core/space/index.ts";
import { besidesSlips, readOn, type Slipped, type TackReading } from "../../../../core/trestles/index.ts";
import { extent } from "../../../../core/tube/index.ts";

/** How a tacked bar stands, from the readings that the job keeps of it, and which cards that changes. */
export interface TackedAsk {
  readonly bar: string;
}

export interface TackedReply {
  /** Readings that count, by their index in the job's list. */
  readonly counted: readonly number[];
  /** What each of those would read on the bars as planned (mm). */
  readonly planned: readonly number[];
  /** Ends and corners of the bar as planned, from A to B. */
  readonly wanted: readonly Vec[];
  /** Readings of points that have no place yet. */
  readonly waiting: readonly number[];
  /** Readings that a slip of unit explains, by their index in the job's list: they are left out. */
  readonly slipped: readonly Slipped[];
  /** Absent before the first reading; "none" where no bar near the wanted one gives such readings. */
  readonly judged?: TackedAnswer | "none";
  /** Bars that lie where it says in the job, and how far this one's places are from what is kept (mm). */
  readonly kept: boolean;
}

export function tacked(plan: Plan, { bar }: TackedAsk): TackedReply | undefined {
  const planned = plan.byId.get(bar);
  if (!planned) return undefined;
  const sizes = plan.job.made?.[bar]?.tacked ?? [];
  const read = sizes.flatMap((size, index) =>
    size.struck ? [] : [{ index, reading: tackReading(size, plan.places.job.points) }],
  );
  const known = read.flatMap(({ index, reading }) => (reading ? [{ index, reading }] : []));
  const slips = tackSlips(
    plan,
    bar,
    known.map((k) => k.reading),
  );
  const good = besidesSlips(known, slips).map((k) => k.reading);
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
    wanted: placesOf((asWanted(plan, bar).byId.get(bar) ?? planned).bar.centreline),
    waiting: read.flatMap(({ index, reading }) => (reading ? [] : [index])),
    slipped: slips.map((s) => ({ ...s, index: known[s.index]?.index ?? s.index })),
    ...(judged === undefined ? {} : { judged }),
    kept: plan.job.asBuilt?.[bar] !== undefined,
  };
}

/** What each would read where all bars stand as planned; not a number where a bar that it names has no geometry. */
function plannedReads(wanted: Plan, readings: readonly TackReading[]): readonly number[] {
  const bars = wanted.bars.map(({ id, bar }) => ({ id, line: bar.centreline, od: extent(bar.tube) }));
  return readings.map((r) => (barsIn(r).every((id) => wanted.byId.has(id)) ? readOn(r, bars) : Number.NaN));
}

/** A reading that could be taken of a tacked bar; its size plays no part. */
export interface TackWantedAsk {
  readonly bar: string;
  readonly size: TackSize;
}

/** What it would read on the bar as wanted, and the others as they are (mm); undefined where an end has no place. */
export function tackWanted(plan: Plan, { bar, size }: TackWantedAsk): number | undefined {
  const reading = tackReading(size, plan.places.job.points);
  const [value] = reading ? plannedReads(asWanted(plan, bar), [reading]) : [];
  const held = size.what === "tape" ? (size.mark ?? 0) : 0;
  return value === undefined || Number.isNaN(value) ? undefined : value + held;
}
