import { placesOf } from "../../../core/bar/index.ts";
import type { End } from "../../../core/job/index.ts";
import type { ResolvedBar } from "../../../core/layout/types.ts";
import type { Stands } from "../document/index.ts";

/** Where a bar stands, for the commands that let it stand there by itself. Undefined where it has no geometry. */
export function standsIn(
  plan: { readonly byId: ReadonlyMap<string, { readonly bar: ResolvedBar }> },
  id: string,
): Stands | undefined {
  const bar = plan.byId.get(id)?.bar;
  if (!bar) return undefined;
  return {
    corners: placesOf(bar.centreline),
    ends: { A: endOf(bar, "A"), B: endOf(bar, "B") },
  };
}

function endOf(bar: ResolvedBar, end: End): Stands["ends"][End] {
  const seat = bar.seat[end];
  if (seat.kind === "on") return { on: seat };
  return seat.kind === "plate" ? { plate: { id: seat.plate, at: seat.at, normal: seat.normal } } : {};
}
