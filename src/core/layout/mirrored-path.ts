import { type Centreline, closestTo, placeAt } from "../bar/index.ts";
import type {
  Follow,
  Job,
  LandingNode,
  LandingWhere,
  MirrorBar,
  PathBar,
  PathNode,
  PlaceNode,
  Plate,
  Side,
} from "../job/types.ts";
import { add, dot, mirrored, ORIGIN, type Vec } from "../space/index.ts";
import type { ResolvedBar, Seat } from "./types.ts";

type Hosts = (id: string) => ResolvedBar | undefined;

const OTHER: Readonly<Record<Side, Side>> = {
  left: "right",
  right: "left",
  front: "front",
  rear: "rear",
  top: "top",
  bottom: "bottom",
};

/** A plate as it stands on the other side of the car. */
export const mirroredPlate = <P extends Plate>(plate: P): P => ({
  ...plate,
  at: mirrored(plate.at),
  normal: mirrored(plate.normal),
  ...(plate.along ? { along: mirrored(plate.along) } : {}),
});

/** Bars as they were wanted and as they were built. */
export interface Both {
  readonly wanted: Hosts;
  readonly built: Hosts;
}

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
  const free = (node: PlaceNode): PlaceNode => {
    if (node.kind === "at") return { kind: "at", at: mirrored(node.at) };
    if (node.kind === "step") return { kind: "step", step: mirrored(node.step) };
    const at: Vec = job.points[node.point]?.at ?? ORIGIN;
    return { kind: "at", at: mirrored(add(at, node.by)) };
  };
  const landing = (node: LandingNode, seat?: Seat): LandingNode => {
    const here = seat?.kind === "on" ? seat : undefined;
    const twin = twins.get(node.on);
    const on = here ? here.hosts[0]! : (twin ?? node.on);
    const also = here ? here.hosts.slice(1) : node.also.map((b) => twins.get(b) ?? b);
    return { ...node, on, also, off: mirrored(node.off), where: where(node.where, twin ? undefined : on) };
  };
  /** `itself`: the host, where that is its own mirror image. */
  const where = (said: LandingWhere, itself?: string): LandingWhere => {
    if (said.by === "along")
      return itself === undefined ? said : { by: "along", along: onOtherSide(said.along, itself, bars) };
    if (said.by === "toward") {
      const { toward } = said;
      return { by: "toward", toward: toward.kind === "on" ? landing(toward) : free(toward) };
    }
    const near =
      said.near === undefined
        ? {}
        : { near: typeof said.near === "string" ? OTHER[said.near] : mirrored(said.near) };
    return { ...said, value: said.axis === "y" ? -said.value : said.value, ...near };
  };
  const nodes = original.path.map((node, i): PathNode => {
    const seat = i === 0 ? wanted.seat.A : i === original.path.length - 1 ? wanted.seat.B : undefined;
    if (node.kind === "plate") {
      plates[node.plate] = mirroredPlate(job.plates[node.plate]!);
      return node;
    }
    return node.kind === "on" ? landing(node, seat) : free(node);
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

/**
 * The station (mm, from A) of a bar as built where a landing's mirror image is, the bar being its own mirror image as
 * wanted. `along` is the landing's own station, negative from end B.
 *
 * A station is measured from an end, and on the other side of the car from the end that stands there: on a hoop, whose
 * ends change places in the mirror, from B what the landing has from A. So as wanted the two are mirror images, and on
 * the bar as built each is as far from the end on its own side as was asked for, however long the bar came out. On a bar
 * in the centre plane no end changes places. (A wanted bar that is its own image only about the landing keeps what the
 * landing's image has from that end.)
 */
function onOtherSide(along: number, host: string, bars: Both): number {
  const wanted = bars.wanted(host)?.centreline;
  const built = bars.built(host)?.centreline;
  if (!wanted || !built) return along;
  const { image, turns } = turnsRound(wanted, along);
  const fromB = along < 0;
  return turns === fromB ? image : built.length - (wanted.length - image);
}

/** Where the mirror image of a station is on a bar that is its own image, and whether the bar runs the other way there. */
function turnsRound(wanted: Centreline, along: number): { readonly image: number; readonly turns: boolean } {
  const landing = placeAt(wanted, along < 0 ? wanted.length + along : along);
  const image = closestTo(wanted, mirrored(landing.at)).s;
  return { image, turns: dot(mirrored(landing.dir), placeAt(wanted, image).dir) < 0 };
}
