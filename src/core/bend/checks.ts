import type { Piece, Straight } from "../bar/index.ts";
import { count, type Phrase, phrase, text } from "../findings/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { rad, SAME_PLACE } from "../numeric/index.ts";
import { cross, dist, dot, len, rejection, scale, sub } from "../space/index.ts";
import { type FedBend, type Feed, feedOf, lowest, type PartBent, partBent } from "./feed.ts";

export type CheckCode =
  /** Outside leg at the end named. */
  | "leg-A"
  | "leg-B"
  /** A tape laid round the outside of the bend. */
  | "round-outside"
  /** Outside to outside of two parallel legs. */
  | "parallel-legs"
  | "end-to-end"
  /** Underside of the end over the table. */
  | "off-table";

/** One size that a tape can read. */
export interface Check {
  readonly what: CheckCode;
  /** Millimetres. */
  readonly value: number;
  /** Between what the tape is laid; no figures. */
  readonly across: Phrase;
  /** Of parallel legs: which two, counted from 1 at end A of the finished bar, the one nearer to A first. */
  readonly legs?: readonly [number, number];
}

export interface ChecksAfter {
  /** The bend just made, counted from A. */
  readonly bend: number;
  readonly checks: readonly Check[];
}

/** Beyond this the outer lines meet too far away to lay a square to. */
const WIDEST_LEG_CHECK = rad(120);

/** Legs within this of parallel are measured as parallel. */
const PARALLEL = rad(0.1);

/** A bar that leaves the first bend's plane by less lies flat for a tape. */
const FLAT = rad(0.001);

/**
 * Check sizes after every bend, in order of bending from `fromEnd`, with the tube behind the bend still straight.
 *
 * Units: mm. `leastBack` as for `bendPlan`; trim counts, since the ends are still sawn square.
 * What each is (θ bend angle, R its radius, r half the outside diameter):
 * - leg: from a sawn end to where the outer lines of both legs meet, straight + (R + r)·tan(θ/2), up to 120°; the end
 *   fed first after the first bend, the other end, its tube still straight, after every bend;
 * - round the outside: (R + r)·θ, longer than the tube that the bend uses by r·θ;
 * - parallel legs (within 0.1°, either way round): their distance square across at the bend just made, + 2r;
 * - end to end: straight across between the centres of both sawn ends;
 * - off the table: the bar lies on the plane of the bend made first, that side up which lets it lie, else that which
 *   holds the tail end up; the lowest point of the tail end's rim over the table. h + r − r·√(1 − sin² slope) for an
 *   end whose centre stands h over the plane of the first bend.
 */
export function checksAfter(
  bar: ResolvedBar,
  leastBack: Readonly<Record<End, number>>,
): readonly ChecksAfter[] {
  const feed = feedOf(bar, leastBack);
  return feed.bends.map((bend, i): ChecksAfter => {
    const shape = partBent(feed, i);
    return {
      bend: bend.n,
      checks: [
        ...legs(feed, bend, i),
        ...parallel(feed, bend, shape, i),
        ...ends(feed, shape),
        ...offTable(feed, shape, feed.bends[0] ?? bend),
      ],
    };
  });
}

function legs(feed: Feed, bend: FedBend, i: number): Check[] {
  const outer = bend.clr + feed.od / 2;
  const checks: Check[] = [];
  if (bend.angle <= WIDEST_LEG_CHECK) {
    const past = outer * Math.tan(bend.angle / 2);
    const leg = (end: End, straight: number): Check => ({
      what: `leg-${end}`,
      value: straight + past,
      across: phrase("check-leg", { end: text(end), bend: count(bend.n) }),
    });
    if (i === 0) checks.push(leg(feed.lead, bend.straight));
    checks.push(leg(feed.tail, bend.rest));
  }
  checks.push({
    what: "round-outside",
    value: outer * bend.angle,
    across: phrase("check-round", { bend: count(bend.n) }),
  });
  return checks;
}

/** The leg behind the bend just made against every leg before it. */
function parallel(feed: Feed, bend: FedBend, shape: PartBent, i: number): Check[] {
  const straights = shape.pieces.filter((p: Piece): p is Straight => p.kind === "straight");
  const tail = straights[i + 1];
  if (!tail) return [];
  return straights.slice(0, i + 1).flatMap((leg, j): Check[] => {
    if (leg.length <= SAME_PLACE || len(cross(leg.dir, tail.dir)) > Math.sin(PARALLEL)) return [];
    const apart = len(rejection(sub(tail.from, leg.from), leg.dir));
    if (apart <= SAME_PLACE) return [];
    const across = phrase("check-parallel", {
      bend: count(bend.n),
      first: legName(feed, j),
      second: legName(feed, i + 1),
    });
    return [{ what: "parallel-legs", value: apart + feed.od, across, legs: legNumbers(feed, j, i + 1) }];
  });
}

/** Legs j < k of the feed as they are counted from end A. */
const legNumbers = ({ lead, bends }: Feed, j: number, k: number): readonly [number, number] =>
  lead === "A" ? [j + 1, k + 1] : [bends.length + 1 - k, bends.length + 1 - j];

/** Leg j of the feed: before bend j of it, behind bend j − 1. */
function legName(feed: Feed, j: number): Phrase {
  const before = feed.bends[j - 1];
  const after = feed.bends[j];
  if (before && after) {
    return phrase("check-leg-between", { first: count(before.n), second: count(after.n) });
  }
  return phrase("check-leg-end", { end: text(before ? feed.tail : feed.lead) });
}

function ends(feed: Feed, shape: PartBent): Check[] {
  const across = phrase("check-end-to-end", { first: text(feed.lead), second: text(feed.tail) });
  return [{ what: "end-to-end", value: dist(shape.start, shape.finish), across }];
}

function offTable(feed: Feed, shape: PartBent, { n, arc: first }: FedBend): Check[] {
  const lies = shape.pieces.every((p) =>
    p.kind === "straight" ? Math.abs(dot(p.dir, first.n)) < FLAT : len(cross(p.n, first.n)) < FLAT,
  );
  if (lies) return [];
  const r = feed.od / 2;
  const height = dot(sub(shape.finish, first.centre), first.n);
  const side = (sign: 1 | -1): { readonly under: number; readonly end: number } => {
    const up = scale(first.n, sign);
    return { under: r + lowest(shape.pieces, r, first.centre, up), end: height * sign };
  };
  const [one, other] = [side(1), side(-1)];
  const [only, both] = [one, other].filter((s) => s.under >= -SAME_PLACE);
  const best = only && !both ? only : one.end >= other.end ? one : other;
  const tail = shape.pieces[shape.pieces.length - 1] as Straight;
  const slope = dot(tail.dir, first.n);
  const value = best.end + r - r * Math.sqrt(Math.max(0, 1 - slope * slope));
  const code = best.under < -SAME_PLACE ? "check-off-table-over" : "check-off-table";
  const across = phrase(code, { end: text(feed.tail), bend: count(n) });
  return [{ what: "off-table", value, across }];
}
