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

/** Place, bends, tube and what each end meets: with the bars that it lands on, all that its ends are cut to. */
function shapeOf(result: BarResult): string {
  const { id, tube, centreline, seat } = result.bar;
  const bends = centreline.bends.map((b) => [b.corner, b.clr]);
  return JSON.stringify([
    id,
    extent(tube),
    sizeOf(tube).wall,
    centreline.start,
    bends,
    centreline.finish,
    seat.A,
    seat.B,
  ]);
}

/** Numbers for texts, exact: no two texts share one. */
function numbering(): (text: string) => number {
  const numbers = new Map<string, number>();
  return (text) => {
    const known = numbers.get(text) ?? numbers.size;
    numbers.set(text, known);
    return known;
  };
}

/**
 * Keys of the answers for a job as it is computed. An answer depends on the bar and all that is in place when it goes in:
 * bars, plates, body, driver, floor, and whether the roof is on by then. What a bar is called, how far it has come or
 * what it weighs changes no key, so an edit that is taken back brings the answers back too.
 * What is kept between jobs and edits (each text's number, each result's shape) is kept by who asks, as long as it is.
 */
export function keyMaker(): (results: Results, job: Job) => Keys {
  const numberOf = numbering();
  const shapes = new WeakMap<BarResult, string>();
  return (results, job) => {
    const bars = new Map<string, number>();
    for (const [id, result] of results.bars) {
      const shape = shapes.get(result) ?? shapeOf(result);
      shapes.set(result, shape);
      bars.set(id, numberOf(`${shape} ${job.bars[id]?.needs ?? ""}`));
    }
    return keysAmong(bars, numberOf(partsOf(results, job)));
  };
}

function keysAmong(bars: ReadonlyMap<string, number>, parts: number): Keys {
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

/** What is in place besides bars. Any bar's plate counts, and any bar that reaches below 0 takes the floor away. */
function partsOf(results: Results, job: Job): string {
  const seats = [...results.bars.values()].flatMap(({ bar }) =>
    [bar.seat.A, bar.seat.B].flatMap((s) => (s.kind === "plate" ? [[s, job.plates[s.plate]]] : [])),
  );
  const isBelow = [...results.bars.values()].some(({ bar: { centreline: c, tube } }) =>
    [c.start, ...c.bends.map((b) => b.corner), c.finish].some((p) => p[2] - halfExtent(tube) < 0),
  );
  return JSON.stringify([job.body, job.driver ?? null, job.shop.torch ?? null, seats, isBelow]);
}
