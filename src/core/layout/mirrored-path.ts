import type { Follow, Job, MirrorBar, PathBar, PathNode, Plate } from "../job/types.ts";
import { mirrored } from "../space/index.ts";
import { placingOf } from "./kinds/index.ts";
import { type Both, onOtherSide, turnsRound } from "./other-side.ts";
import type { ResolvedBar } from "./types.ts";

/**
 * What a mirrored bar's own path would say: its original's, mirrored about y = 0 node by node.
 *
 * A station on a bar that is its own mirror image counts from the end on the mirrored bar's side: `onOtherSide`.
 */
export function mirroredPath(
  bar: MirrorBar,
  original: PathBar,
  job: Job,
  wanted: ResolvedBar,
  twins: ReadonlyMap<string, string>,
  bars: Both,
): {
  readonly path: PathBar;
  readonly plates: Record<string, Plate>;
  /** Whether the bar that it follows is to be read from its end B. */
  readonly turned: boolean;
} {
  const plates: Record<string, Plate> = {};
  const last = original.path.length - 1;
  const nodes = original.path.map((node, i): PathNode => {
    const seat = i === 0 ? wanted.seat.A : i === last ? wanted.seat.B : undefined;
    return placingOf(node).mirrored(node, { job, twins, bars, plates, seat });
  });
  const { follow } = original;
  const followed = follow && mirroredRun(follow, twins, bars);
  const { follow: _, ...rest } = original;
  return {
    path: { ...rest, label: bar.label, path: nodes, ...(followed ? { follow: followed.follow } : {}) },
    plates,
    turned: followed?.turned ?? false,
  };
}

/** The run beside a followed bar, mirrored; `turned` where it is along that bar read from B, stations counted from there. */
function mirroredRun(
  follow: Follow,
  twins: ReadonlyMap<string, string>,
  bars: Both,
): { readonly follow: Follow; readonly turned: boolean } {
  const side = typeof follow.side === "string" ? follow.side : mirrored(follow.side);
  const twin = twins.get(follow.bar);
  const host = bars.built(follow.bar)?.centreline;
  if (twin !== undefined || !host)
    return { follow: { ...follow, bar: twin ?? follow.bar, side }, turned: false };
  const turned = turnsRound(bars.wanted(follow.bar)?.centreline ?? host, follow.from ?? 0).turns;
  const station = (s: number): number => {
    const there = onOtherSide(s, follow.bar, bars);
    return turned ? host.length - there : there;
  };
  const { from, to, ...rest } = follow;
  const run = {
    ...(from === undefined ? {} : { from: station(from) }),
    ...(to === undefined ? {} : { to: station(to) }),
  };
  return { follow: { ...rest, side, ...run }, turned };
}
