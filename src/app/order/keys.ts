import type { Job } from "../../core/job/index.ts";
import { extent, halfExtent, sizeOf } from "../../core/tube/index.ts";

import type { BarResult, Results } from "../model/compute/index.ts";

/** Names what an answer of the fit depends on; the same name, the same answer. */
export interface Keys {
  /** Of one bar among those in before it, in whatever order they came. Undefined for a bar without geometry. */
  of(id: string, before: readonly string[]): string | undefined;
  /** Of a whole order. */
  ofOrder(order: readonly string[]): string;
}

/** Numbers for texts, exact (no two texts share one), for the life of the page. */
const numbers = new Map<string, number>();
function numberOf(text: string): number {
  const known = numbers.get(text);
  if (known !== undefined) return known;
  numbers.set(text, numbers.size);
  return numbers.size - 1;
}

const shapes = new WeakMap<BarResult, string>();

/** Place, bends, tube and what each end meets: with the bars that it lands on, all that its ends are cut to. */
function shapeOf(result: BarResult): string {
  const known = shapes.get(result);
  if (known !== undefined) return known;
  const { id, tube, centreline, seat } = result.bar;
  const bends = centreline.bends.map((b) => [b.corner, b.clr]);
  const text = JSON.stringify([
    id,
    extent(tube),
    sizeOf(tube).wall,
    centreline.start,
    bends,
    centreline.finish,
    seat.A,
    seat.B,
  ]);
  shapes.set(result, text);
  return text;
}

/**
 * Keys of the answers for a job as it is computed. An answer hangs on the bar and all that stands when it goes in:
 * bars, plates, body, driver, floor, and whether the roof is on by then. What a bar is called, how far it has come or
 * what it weighs changes no key, so an edit that is taken back brings the answers back too.
 */
export function keysOf(results: Results, job: Job): Keys {
  const bars = new Map<string, number>();
  for (const [id, result] of results.bars)
    bars.set(id, numberOf(`${shapeOf(result)} ${job.bars[id]?.needs ?? ""}`));
  const parts = numberOf(partsOf(results, job));
  return {
    of(id, before) {
      const own = bars.get(id);
      if (own === undefined) return undefined;
      const stand = before.flatMap((b) => bars.get(b) ?? []).sort((a, b) => a - b);
      return `${own} among ${stand.join(",")} in ${parts}`;
    },
    ofOrder: (order) => `${order.flatMap((id) => bars.get(id) ?? []).join(",")} in ${parts}`,
  };
}

/** What stands besides bars. Any bar's plate counts, and any bar that reaches below 0 takes the floor away. */
function partsOf(results: Results, job: Job): string {
  const seats = [...results.bars.values()].flatMap(({ bar }) =>
    [bar.seat.A, bar.seat.B].flatMap((s) => (s.kind === "plate" ? [[s, job.plates[s.plate]]] : [])),
  );
  const isBelow = [...results.bars.values()].some(({ bar: { centreline: c, tube } }) =>
    [c.start, ...c.bends.map((b) => b.corner), c.finish].some((p) => p[2] - halfExtent(tube) < 0),
  );
  return JSON.stringify([job.body, job.driver ?? null, job.shop.torch ?? null, seats, isBelow]);
}
