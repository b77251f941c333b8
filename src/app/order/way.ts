import { placesOf } from "../../core/bar/index.ts";
import { interpolate, type Judged, type Pose } from "../../core/fit/index.ts";
import { deg } from "../../core/numeric/index.ts";
import { dist, lerp, sub, type Vec } from "../../core/space/index.ts";
import { sayDirection } from "../../words/index.ts";
import { posedAt } from "../cage/index.ts";
import type { BarResult } from "../model/compute/index.ts";

/** A way as a slider goes along it: from 0 mm, outside, to its whole length, at the seat. */
export interface Scrub {
  readonly way: readonly Pose[];
  /** Length of the way up to each pose: what the bar's fastest point of three travels (mm). */
  readonly upTo: readonly number[];
  readonly total: number;
  /** Where the big buttons stop, 0 and the whole length among them. */
  readonly stops: readonly number[];
  /** The bar's A landing at its seat, about which poses turn; its middle; its B landing. */
  readonly marks: readonly [Vec, Vec, Vec];
}

/** The buttons' steps (mm), and no more of them than a thumb has patience for. */
const STEP = 60;
const MOST_STEPS = 40;

export function scrubOf(way: readonly Pose[], { bar }: BarResult): Scrub {
  const { start, finish } = bar.centreline;
  const marks = [start, lerp(start, finish, 0.5), finish] as const;
  let total = 0;
  const upTo = way.map((pose, i) => {
    const from = way[i - 1] ?? pose;
    total += Math.max(...marks.map((m) => dist(posed(from, start, m), posed(pose, start, m))));
    return total;
  });
  const n = Math.min(MOST_STEPS, Math.max(1, Math.ceil(total / STEP)));
  return { way, upTo, total, marks, stops: Array.from({ length: n + 1 }, (_, i) => (total * i) / n) };
}

/** Between two poses the shift in a straight line and the turn at an even rate, as it was checked. */
export function poseAt({ way, upTo, total }: Scrub, mm: number): Pose {
  const at = Math.min(total, Math.max(0, mm));
  const reached = upTo.findIndex((s, i) => i > 0 && s >= at);
  const to = reached < 0 ? way.length - 1 : reached;
  const [b, end = 0] = [way[to], upTo[to]];
  const [a = b, begin = 0] = [way[to - 1], upTo[to - 1]];
  if (!a || !b) throw new Error("a way has a pose");
  const long = end - begin;
  return interpolate(a, b, long > 0 ? Math.min(1, (at - begin) / long) : 1);
}

/** The stop before (-1) or after (1) a place on the way. */
export function stopFrom({ stops, total }: Scrub, mm: number, by: -1 | 1): number {
  const near = total * 1e-6 + 1e-9;
  if (by > 0) return stops.find((s) => s > mm + near) ?? total;
  return [...stops].reverse().find((s) => s < mm - near) ?? 0;
}

/** What to do next on the way: which way the bar's middle goes up to the next stop, and how far the bar turns. */
export function moveFrom(scrub: Scrub, mm: number): { readonly go: string; readonly turn: number } {
  const [a, b] = [poseAt(scrub, mm), poseAt(scrub, stopFrom(scrub, mm, 1))];
  const [about, middle] = scrub.marks;
  const d = sub(posed(b, about, middle), posed(a, about, middle));
  const dot = Math.abs(a.turn.reduce((sum, q, i) => sum + q * (b.turn[i] ?? 0), 0));
  return {
    go: Math.hypot(...d) < 0.5 ? "" : sayDirection(d),
    turn: deg(2 * Math.acos(Math.min(1, dot))),
  };
}

const posed = (pose: Pose, about: Vec, place: Vec): Vec =>
  posedAt({ id: "", at: pose.at, turn: pose.turn, about }, place);

/** Degrees of the free view: a fitter stands to the side of the bar's way, toward the car's front, eyes over the sill. */
const ASIDE = 35;
const EYES = 16;

/**
 * From where the fitter stands to bring it in: outside, at the side that the bar comes from, or before the opening
 * (given by its edge) that it comes through; a little aside, or the bar would hide its own way.
 */
export function standFor(
  { way }: Pick<Judged, "way">,
  opening: readonly Vec[] | undefined,
  centre: Vec,
): {
  readonly az: number;
  readonly el: number;
} {
  const out = opening && opening.length > 0 ? sub(middleOf(opening), centre) : (way[0]?.at ?? [0, 1, 0]);
  const level = Math.hypot(out[0], out[1]);
  // From straight above or below there is no side; the left one is as good.
  const az = level < Math.abs(out[2]) / 3 ? 90 : deg(Math.atan2(out[1], out[0]));
  const aside = Math.abs(az) > ASIDE ? az - Math.sign(az) * ASIDE : az + ASIDE;
  return { az: aside, el: EYES };
}

const middleOf = (edge: readonly Vec[]): Vec => [
  edge.reduce((s, p) => s + p[0], 0) / edge.length,
  edge.reduce((s, p) => s + p[1], 0) / edge.length,
  edge.reduce((s, p) => s + p[2], 0) / edge.length,
];

/**
 * Where on the way the bar is nearest to another bar (mm from its beginning), seen along both middle lines: for the eye,
 * the distance itself is the sweep's. Undefined where the nearest thing is no bar.
 */
export function closestOn(scrub: Scrub, own: BarResult, other: BarResult | undefined): number | undefined {
  if (!other) return undefined;
  const [mine, theirs] = [spineOf(own), spineOf(other)];
  let best: { readonly at: number; readonly d: number } | undefined;
  const n = Math.min(240, Math.max(40, Math.ceil(scrub.total / 10)));
  for (let k = n; k >= 0; k--) {
    const at = (scrub.total * k) / n;
    const pose = poseAt(scrub, at);
    for (const m of mine) {
      const p = posed(pose, scrub.marks[0], m);
      for (const q of theirs) {
        const d = dist(p, q);
        if (!best || d < best.d - 1e-9) best = { at, d };
      }
    }
  }
  return best?.at;
}

/** Places along a bar's middle line, about every 25 mm. */
function spineOf({ bar: { centreline: c } }: BarResult): readonly Vec[] {
  const corners = placesOf(c);
  return corners.slice(1).flatMap((to, i) => {
    const from = corners[i] ?? to;
    const n = Math.max(1, Math.ceil(dist(from, to) / 25));
    return Array.from({ length: n + 1 }, (_, k) => lerp(from, to, k / n));
  });
}
