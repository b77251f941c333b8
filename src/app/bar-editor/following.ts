// biome-ignore-all lint/style/noNonNullAssertion: lists are walked by their own indices, ways with another number of corners are refused before they are compared, and a centreline has a leg more than bends.
import { type Bend, closestTo } from "../../core/bar/index.ts";
import type { Place } from "../../core/job/index.ts";
import { followCorners, type ResolvedBar } from "../../core/layout/index.ts";
import { along, dist, dot, mapVec, scale, sub, unit, type Vec } from "../../core/space/index.ts";
import { halfExtent } from "../../core/tube/index.ts";
import { BAR_PANEL } from "../../words/index.ts";
import {
  at,
  type Command,
  calledOf,
  changeBar,
  type JobDocument,
  type Json,
} from "../model/document/index.ts";

/** Where nothing can be measured yet: a hand's breadth, to be typed over (mm). */
const GAP = 60;

/** From a landing on the bar followed to where the run beside it begins: room to swing out in (mm). */
const RUN_IN = 120;

/** Side said in words where its corners lie this near to those of the direction measured (mm). */
const SAME_SIDE = 0.5;

/**
 * Lets a bar take its corners from another that it runs beside; its ends stay as they are said. Gap, side and run are
 * those with which it stands where it stands now, as near as following allows. A bar without corners begins a hand's
 * breadth inside, its run a little way from where it lands on the bar followed. `bars`: where both are computed to be.
 */
export function followBar(
  document: JobDocument,
  bar: string,
  followed: string,
  bars: { get(id: string): { readonly bar: ResolvedBar } | undefined },
): Command {
  const path = at(document, ["bars", bar, "path"]);
  const list = Array.isArray(path) ? (path as readonly Json[]) : [];
  const ends = [list[0] ?? [0, 0, 0], list[list.length - 1] ?? [0, 0, 0]];
  const [self, host] = [bars.get(bar)?.bar, bars.get(followed)?.bar];
  const way = (self && host && asItStands(self, host)) ?? fresh(self, followed);
  return changeBar(
    bar,
    { path: ends, follow: { bar: followed, ...way } },
    BAR_PANEL.followed(calledOf(document, "bar", bar), calledOf(document, "bar", followed)),
  );
}

interface Way {
  readonly gap: number;
  readonly side: "inside" | "outside" | Vec;
  readonly from?: number;
  readonly to?: number;
}

function fresh(self: ResolvedBar | undefined, followed: string): Way {
  const station = (end: "A" | "B"): number | undefined => {
    const seat = self?.seat[end];
    return seat?.kind === "on" && seat.hosts[0] === followed ? Math.round(seat.along) : undefined;
  };
  const [a, b] = [station("A"), station("B")];
  const way = (b ?? Number.POSITIVE_INFINITY) < (a ?? 0) ? -RUN_IN : RUN_IN;
  return {
    gap: GAP,
    side: "inside",
    ...(a === undefined ? {} : { from: a + way }),
    ...(b === undefined ? {} : { to: b - way }),
  };
}

const tenth = (x: number): number => Math.round(x * 10) / 10 + 0;

/**
 * The way of following whose corners lie nearest to the bar's own; undefined where it has none, or where none of the
 * ways gives as many. A corner stands where the run begins or ends, or beside a corner of the bar followed: which of
 * them does is tried, by the layout's own method.
 */
function asItStands(self: ResolvedBar, host: ResolvedBar): Way | undefined {
  const own = self.centreline.bends.map((bend) => bend.corner);
  const feet = own.map((corner, i) => {
    const [p, q] = i + 1 < own.length ? [corner, own[i + 1]!] : [own[i - 1] ?? self.centreline.start, corner];
    return footOf(corner, unit(sub(q, p)), host);
  });
  const [first, last] = [feet[0], feet[feet.length - 1]];
  if (!first || !last) return undefined;
  const mean = feet.reduce((sum, foot) => sum + foot.distance, 0) / feet.length;
  const gap = tenth(mean - halfExtent(self.tube) - halfExtent(host.tube));
  const low = first.s <= last.s ? first : last;
  if (!(gap >= 0) || !(low.distance > 0)) return undefined;
  const direction = mapVec(low.side, (x) => Math.round(x * 1e4) / 1e4 + 0);
  const [from, to] = [{ from: tenth(first.s) }, { to: tenth(last.s) }];
  const ways = (["inside", "outside", direction] as const).flatMap((side): readonly Way[] => [
    { gap, side, ...from, ...to },
    { gap, side, ...from },
    { gap, side, ...to },
    { gap, side },
  ]);
  const tried = ways.map((way) => ({ way, off: missOf(way, self, host, own) }));
  const least = Math.min(...tried.map((t) => t.off));
  return Number.isFinite(least) ? tried.find((t) => t.off <= least + SAME_SIDE)?.way : undefined;
}

/** How far the corners of a way of following lie from a bar's own, the worst of them (mm). */
function missOf(way: Way, self: ResolvedBar, host: ResolvedBar, own: readonly Vec[]): number {
  const { corners } = followCorners({ bar: host.id, ...way }, halfExtent(self.tube), host, "", self.id);
  if (corners.length !== own.length) return Number.POSITIVE_INFINITY;
  return Math.max(...corners.map((corner, i) => dist(corner, own[i]!)));
}

interface Foot {
  /** Station of the host above it (mm). */
  readonly s: number;
  readonly distance: number;
  /** From the foot to the corner, length 1. */
  readonly side: Vec;
}

/**
 * Where a corner stands beside the host, square to the host's leg there. Beside a bend it is the leg that runs more
 * as the bar itself does (`run`: the bar's own leg within the run).
 */
function footOf(corner: Vec, run: Vec, host: ResolvedBar): Foot {
  const { bends, pieces } = host.centreline;
  const legs = pieces.filter((piece) => piece.kind === "straight");
  const { s } = closestTo(host.centreline, corner);
  const before = bends.filter((bend) => s > bend.end).length;
  const inBend = bends.some((bend) => s >= bend.start && s <= bend.end);
  const like = (i: number): number => Math.abs(dot(legs[i]!.dir, run));
  const leg = inBend && like(before + 1) > like(before) ? before + 1 : before;
  const { from, dir } = legs[leg]!;
  const reach = dot(sub(corner, from), dir);
  const foot = along(from, dir, reach);
  const distance = dist(corner, foot);
  return {
    s: stationAbove(leg, reach, host),
    distance,
    side: distance > 0 ? scale(sub(corner, foot), 1 / distance) : dir,
  };
}

/**
 * The station (mm) whose place stands square above a point of a leg's line, `reach` mm from the leg's start. Beyond the
 * straight the centreline turns away from that line, as far as the bend's middle it still belongs to the leg.
 */
function stationAbove(leg: number, reach: number, host: ResolvedBar): number {
  const { bends, pieces, length } = host.centreline;
  const straight = pieces.filter((piece) => piece.kind === "straight")[leg]!;
  const [before, after] = [bends[leg - 1], bends[leg]];
  const turned = ({ arc }: Bend, beyond: number): number =>
    arc.radius * Math.min(arc.angle / 2, Math.asin(Math.min(1, beyond / arc.radius)));
  const over = reach - straight.length;
  if (reach < 0) return before ? before.end - turned(before, -reach) : 0;
  if (over > 0) return after ? after.start + turned(after, over) : length;
  return straight.s0 + reach;
}

/** Writes the corners that following gave into the path. */
export function unfollow(document: JobDocument, bar: string, corners: readonly Place[]): Command {
  const path = at(document, ["bars", bar, "path"]);
  const list = Array.isArray(path) ? (path as readonly Json[]) : [];
  const inner = corners.slice(1, -1).map((p): Json => p.map((x) => Math.round(x * 1e4) / 1e4 + 0));
  const next = [list[0] ?? [0, 0, 0], ...inner, list[list.length - 1] ?? [0, 0, 0]];
  return changeBar(
    bar,
    { path: next, follow: undefined },
    BAR_PANEL.unfollowed(calledOf(document, "bar", bar)),
  );
}
