// biome-ignore-all lint/style/noNonNullAssertion: segments have six numbers each, and loops step by six below their length.
import { closestTo } from "../../bar/index.ts";
import { goldenLeast } from "../../numeric/index.ts";
import { dist, lerp, sub, type Vec } from "../../space/index.ts";
import {
  capsulesOf,
  checker,
  closestPoints,
  MERE_TOUCH,
  type Obstacle,
  pointSegmentDistanceSquared,
  SEAT,
  type Solid,
  type SolidEnd,
  segmentDistanceSquared,
} from "../scene/index.ts";
import { depthIn, type Metal } from "./metal.ts";

/** Where two things that are at their places want the same room. */
export interface Clash {
  /** How much they overlap (mm): how far apart one must move the surfaces that have gone past each other. */
  readonly by: number;
  readonly at: Vec;
}

/** Places nearer together than this many diameters of the thicker tube are one clash. */
const ONE = 1;
/** Wall lines are looked at in steps of this (mm), and then between the steps. */
const STEP = 2;
/** A wall line whose best step is farther out than this has nothing between its steps (mm). */
const WORTH = STEP;

/**
 * Where two seated bars overlap by more than a touch, deepest first; a bar cut to the other touches it and does not.
 *
 * Both are asked by the search's own distance code, each as it is cut against the other as it stands; where both say
 * that they overlap, the places are sought: of the tubes where they are whole by the distance of their middle lines
 * (radii less distance), of each end by how deep its wall lines are in the metal of the other, which ends where that
 * one is cut in its turn (`depthIn`). So the joint of one on the other is left out by its cut, not by a margin.
 * Accuracy: 0.012 mm for whole tubes (chords of both); at an end no more than there is, wall lines being 2° apart.
 */
export function clashesOf(a: Metal, b: Metal): readonly Clash[] {
  if (isClear(a, b.stands) || isClear(b, a.stands)) return [];
  return merged(
    [...crossings(a.solid, b.solid), ...endsIn(a.solid.ends, b), ...endsIn(b.solid.ends, a)],
    2 * ONE * Math.max(a.solid.radius, b.solid.radius),
  );
}

const isClear = ({ solid }: Metal, o: Obstacle): boolean =>
  checker(solid, { obstacles: [o] })(SEAT, { cap: 1 }).least >= -MERE_TOUCH;

/** Overlaps of two bars where both tubes are whole. */
function crossings(a: Solid, b: Solid): readonly Clash[] {
  const [p, q] = [a.core.segments, b.core.segments];
  const pairs: Pair[] = [];
  for (let i = 0; i < p.length; i += 6)
    for (let j = 0; j < q.length; j += 6) {
      const by = a.radius + b.radius - Math.sqrt(segmentDistanceSquared(p, i, q, j));
      if (by > MERE_TOUCH) pairs.push({ i: i / 6, j: j / 6, by });
    }
  return together(pairs).map(({ i, j, by }) => ({
    by,
    at: middleOf(a, b, closestPoints(p, 6 * i, 6, q, 6 * j)),
  }));
}

interface Pair {
  readonly i: number;
  readonly j: number;
  readonly by: number;
}

/** Of pairs of segments that overlap the deepest of each run: segments beside each other on both bars are one run. */
function together(pairs: readonly Pair[]): readonly Pair[] {
  const left = new Map(pairs.map((p) => [`${p.i} ${p.j}`, p]));
  const out: Pair[] = [];
  for (const start of pairs) {
    if (!left.delete(`${start.i} ${start.j}`)) continue;
    let deepest = start;
    const near = [start];
    for (let p = near.pop(); p; p = near.pop()) {
      if (p.by > deepest.by) deepest = p;
      for (const di of [-1, 0, 1])
        for (const dj of [-1, 0, 1]) {
          const next = left.get(`${p.i + di} ${p.j + dj}`);
          if (next && left.delete(`${next.i} ${next.j}`)) near.push(next);
        }
    }
    out.push(deepest);
  }
  return out;
}

/** The middle of the room that both want, from the closest places of their middle lines. */
function middleOf(a: Solid, b: Solid, [p, q]: readonly [Vec, Vec]): Vec {
  const d = dist(p, q);
  if (d < 1e-9) return p;
  const middle = (a.radius + d - b.radius) / 2;
  return lerp(p, q, Math.min(1, Math.max(0, middle / d)));
}

/** How deep the wall lines of a bar's ends are in another's metal. */
const endsIn = (ends: readonly SolidEnd[], other: Metal): readonly Clash[] =>
  ends.flatMap((end) => deepest(end, other.line.segments, other.line.radius, (q) => depthIn(other, q)));

function deepest(
  end: SolidEnd,
  near: Float64Array,
  radius: number,
  depth: (q: Vec) => number,
): readonly Clash[] {
  let isNear = false;
  for (let j = 0; j < near.length && !isNear; j += 6)
    isNear = Math.sqrt(pointSegmentDistanceSquared(...end.centre, near, j)) < end.reach + radius;
  if (!isNear) return [];
  let best: Clash = { by: MERE_TOUCH, at: end.centre };
  const { walls } = end;
  for (let i = 0; i < walls.length; i += 6) {
    const a: Vec = [walls[i]!, walls[i + 1]!, walls[i + 2]!];
    const b: Vec = [walls[i + 3]!, walls[i + 4]!, walls[i + 5]!];
    const n = Math.max(1, Math.ceil(dist(a, b) / STEP));
    let top = -Infinity;
    let k = 0;
    for (let s = 0; s <= n; s++) {
      const d = depth(lerp(a, b, s / n));
      if (d > top) {
        top = d;
        k = s;
      }
    }
    if (top < best.by - WORTH) continue;
    const [lo, hi] = [Math.max(0, k - 1) / n, Math.min(n, k + 1) / n];
    const t = goldenLeast((u) => -depth(lerp(a, b, u)), lo, hi, 1e-3 / n);
    for (const u of [k / n, t]) {
      const at = lerp(a, b, u);
      const by = depth(at);
      if (by > best.by) best = { by, at };
    }
  }
  return best.by > MERE_TOUCH ? [best] : [];
}

/** Clashes apart from each other, deepest first. */
function merged(all: readonly Clash[], apart: number): readonly Clash[] {
  const out: Clash[] = [];
  for (const c of [...all].sort((x, y) => y.by - x.by)) {
    if (!out.some((o) => dist(o.at, c.at) < apart)) out.push(c);
  }
  return out;
}

/**
 * Where a bar runs into itself: places of its middle line nearer than its diameter that are more than half the
 * circumference of the tube apart along it. (A curve that nowhere bends tighter than the tube's radius r keeps such
 * places 2r apart for as long as it turns less than half a circle: A. Schur's comparison of chords, 1921.)
 */
export function selfClashes({ own, solid }: Metal): readonly Clash[] {
  const { bar } = own;
  if (bar.centreline.bends.reduce((sum, b) => sum + b.angle, 0) < Math.PI - 1e-9) return [];
  const r = solid.radius;
  const around = Math.PI * r;
  const { segments } = solid.core;
  const pairs: Pair[] = [];
  const station = (p: Vec): number => closestTo(bar.centreline, p).s;
  for (let i = 0; i < segments.length; i += 6)
    for (let j = i + 6; j < segments.length; j += 6) {
      const by = 2 * r - Math.sqrt(segmentDistanceSquared(segments, i, segments, j));
      if (by <= MERE_TOUCH) continue;
      const [p, q] = closestPoints(segments, i, 6, segments, j);
      if (along(segments, j, q) - along(segments, i, p) > around) pairs.push({ i: i / 6, j: j / 6, by });
    }
  const crossed = together(pairs).map(({ i, j, by }) => ({
    by,
    at: middleOf(solid, solid, closestPoints(segments, 6 * i, 6, segments, 6 * j)),
  }));
  const { length } = bar.centreline;
  const ends = solid.ends.flatMap((end) => {
    const inner = station(end.centre);
    const keep = end.reach + around;
    const rest =
      end.end === "A"
        ? capsulesOf(bar.centreline, Math.min(length, inner + keep), length, r)
        : capsulesOf(bar.centreline, 0, Math.max(0, inner - keep), r);
    return deepest(end, rest.segments, r, (q) => r - Math.sqrt(leastFar(rest.segments, q)));
  });
  return merged([...crossed, ...ends], 2 * r);
}

/** How far along a row of segments a place of the segment at i is (mm). */
function along(segments: Float64Array, i: number, p: Vec): number {
  let sum = 0;
  for (let k = 0; k < i; k += 6)
    sum += Math.hypot(
      segments[k + 3]! - segments[k]!,
      segments[k + 4]! - segments[k + 1]!,
      segments[k + 5]! - segments[k + 2]!,
    );
  return sum + Math.hypot(...sub(p, [segments[i]!, segments[i + 1]!, segments[i + 2]!]));
}

function leastFar(segments: Float64Array, q: Vec): number {
  let least = Infinity;
  for (let j = 0; j < segments.length; j += 6)
    least = Math.min(least, pointSegmentDistanceSquared(q[0], q[1], q[2], segments, j));
  return least;
}
