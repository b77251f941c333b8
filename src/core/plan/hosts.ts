import type { End } from "../job/types.ts";
import type { Layout, ResolvedBar } from "../layout/index.ts";

/** The bars that one end is coped to, host first. Undefined where one of them has no geometry. */
export function hostsOf(bar: ResolvedBar, end: End, layout: Layout): readonly ResolvedBar[] | undefined {
  const seat = bar.seat[end];
  if (seat.kind !== "on") return [];
  const hosts = seat.hosts.map((id) => layout.byId.get(id));
  return hosts.every((h) => h !== undefined) ? hosts : undefined;
}
