// biome-ignore-all lint/style/noNonNullAssertion: legs and bends are counted from the host's own pieces: n bends lie between n + 1 straights.
import { closestTo, placeAt } from "../bar/index.ts";
import { bar as barQuantity, count, type Finding, mm } from "../findings/index.ts";
import type { Follow } from "../job/types.ts";
import { NO_LENGTH, SAME_PLACE } from "../numeric/index.ts";
import {
  add,
  along,
  cross,
  dot,
  len,
  neg,
  rejection,
  scale,
  sub,
  turn,
  unit,
  type Vec,
} from "../space/index.ts";
import { halfExtent } from "../tube/index.ts";
import type { ResolvedBar } from "./types.ts";

export interface Followed {
  readonly corners: readonly Vec[];
  readonly findings: readonly Finding[];
}

/**
 * The corners of a bar that runs beside `host` at an even gap, face to face.
 *
 * They lie on the host's centreline offset by D = gap + r₁ + r₂ (geometry.md, "A bar that follows another"): one where
 * the run begins (`from`, if given), one beside each corner of the host on the run, one where it ends (`to`). `from`
 * and `to` are stations of the host (negative: from its B end); `from` beyond `to` runs the other way. A station
 * inside a bend belongs to the leg on its side of the bend's middle.
 * The offset goes toward `side`: a direction, or the inside or outside of the first bend on the run (of the bend
 * nearest to the run where it has none), and is carried through each bend without twist, so that it stays on one side.
 * At a corner it is D(β·n + (a₁ + a₂)/(1 + cos θ)), a₁, a₂ its in-plane parts on the two legs, β its part along the
 * normal n: the point that lies D from both legs.
 */
export function followCorners(
  follow: Follow,
  radius: number,
  host: ResolvedBar,
  place: string,
  bar: string,
): Followed {
  const line = host.centreline;
  const fail = (code: Finding["code"], values: Finding["values"]): Followed => ({
    corners: [],
    findings: [{ code, place, bar, values: { host: barQuantity(host.id), ...values } }],
  });
  const station = (s: number): number => (s < 0 ? line.length + s : s);
  const from = follow.from === undefined ? undefined : station(follow.from);
  const to = follow.to === undefined ? undefined : station(follow.to);
  const turnsRound = from !== undefined && to !== undefined && from > to;
  const low = (turnsRound ? to : from) ?? 0;
  const high = (turnsRound ? from : to) ?? line.length;
  if (low < -SAME_PLACE || high > line.length + SAME_PLACE || high - low <= SAME_PLACE) {
    return fail("follow-range", { length: mm(line.length), from: mm(low), to: mm(high) });
  }

  const legs = line.pieces.filter((p) => p.kind === "straight");
  const legOf = (s: number): number => line.bends.filter((b) => s >= (b.start + b.end) / 2).length;
  const first = legOf(low);
  const last = legOf(high);
  const reach = follow.gap + halfExtent(host.tube) + radius;
  let w = sideOf(follow, host, first, last, (low + high) / 2);
  if (!w) return fail("follow-side", {});

  const beside = (s: number, leg: number, offset: Vec): Vec => {
    const { from: origin, dir } = legs[leg]!;
    const foot = along(origin, dir, dot(sub(placeAt(line, s).at, origin), dir));
    return along(foot, offset, reach);
  };
  const corners: Vec[] = [];
  if ((turnsRound ? to : from) !== undefined) corners.push(beside(low, first, w));
  for (const bend of line.bends.slice(first, last)) {
    const { n } = bend.arc;
    const carried: Vec = turn(w, n, bend.angle);
    const beta = dot(w, n);
    const inPlane = add(rejection(w, n), rejection(carried, n));
    const v = along(scale(inPlane, 1 / (1 + Math.cos(bend.angle))), n, beta);
    corners.push(along(bend.corner, v, reach));
    w = carried;
  }
  if ((turnsRound ? from : to) !== undefined) corners.push(beside(high, last, w));
  return { corners: turnsRound ? corners.reverse() : corners, findings: [] };
}

/** The offset's direction on leg `first` of the host (length 1), or nothing where the side asked for is none. */
function sideOf(
  follow: Follow,
  host: ResolvedBar,
  first: number,
  last: number,
  middle: number,
): Vec | undefined {
  const line = host.centreline;
  const dir = (line.pieces[2 * first]! as { dir: Vec }).dir;
  const { side } = follow;
  if (typeof side !== "string") {
    const across = rejection(side, dir);
    return len(across) > NO_LENGTH * Math.max(1, len(side)) ? unit(across) : undefined;
  }
  const away = (i: number): number => Math.abs((line.bends[i]!.start + line.bends[i]!.end) / 2 - middle);
  const candidates =
    last > first ? [first] : [first - 1, first].filter((i) => i >= 0 && i < line.bends.length);
  if (candidates.length === 0) return undefined;
  const bend = line.bends[candidates.reduce((a, b) => (away(b) < away(a) ? b : a))]!;
  const inside = unit(cross(bend.arc.n, dir));
  return side === "inside" ? inside : neg(inside);
}

/**
 * Where the follower's gap in the middle of its bends departs from the one asked for by as much as the shop's own gap
 * (mm) or more, as notes with numbers.
 */
export function followDepartures(
  follow: Follow,
  bar: ResolvedBar,
  host: ResolvedBar,
  { place, shopGap }: { readonly place: string; readonly shopGap: number },
): Finding[] {
  return bar.centreline.bends.flatMap((bend): Finding[] => {
    const near = closestTo(host.centreline, placeAt(bar.centreline, (bend.start + bend.end) / 2).at);
    const beside = host.centreline.bends.some((b) => near.s > b.start && near.s < b.end);
    const gap = near.distance - halfExtent(host.tube) - halfExtent(bar.tube);
    if (!beside || Math.abs(gap - follow.gap) < Math.max(shopGap, SAME_PLACE)) return [];
    const values = {
      corner: count(bend.n),
      host: barQuantity(host.id),
      gap: mm(gap),
      departs: mm(gap - follow.gap),
      wanted: mm(follow.gap),
    };
    return [{ code: "follow-departs", place, bar: bar.id, values }];
  });
}
