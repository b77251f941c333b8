// biome-ignore-all lint/style/noNonNullAssertion: segments have six numbers each, and loops step by six below their length.
import { type CopeResult, nearest } from "../../cope/index.ts";
import { dist, dot, sub, type Vec } from "../../space/index.ts";
import { halfExtent } from "../../tube/index.ts";
import {
  type Capsules,
  capsulesOf,
  type FitBar,
  type Obstacle,
  pointSegmentDistanceSquared,
  type Solid,
  solidOf,
  standing,
} from "../scene/index.ts";

/** A seated bar with all that is asked of it when it is held against others. */
export interface Metal {
  readonly own: FitBar;
  readonly solid: Solid;
  readonly stands: Obstacle & { readonly kind: "bar" | "line" | "driver" };
  /** Its middle line as far as its longest wall line runs, at either end. */
  readonly line: Capsules;
}

export function metalOf(own: FitBar): Metal {
  const { bar, copes } = own;
  const { centreline } = bar;
  const line = capsulesOf(
    centreline,
    Math.min(0, copes.A.cope.least),
    centreline.length - Math.min(0, copes.B.cope.least),
    halfExtent(bar.tube),
  );
  return { own, solid: solidOf(bar, copes), stands: standing(bar) as Metal["stands"], line };
}

/** A place this near to where a bar is cut off is on the cut, not in the metal (mm). */
const ON_CUT = 0.001;

/**
 * How deep a place is in a bar's metal, its bore taken as filled: the tube's radius less the distance from its middle
 * line (mm; negative: outside). Past an end, or in what an end is cut to, there is no metal, however near the line.
 */
export function depthIn({ own, solid, line }: Metal, q: Vec): number {
  const { segments, radius } = line;
  let least = Infinity;
  let at = 0;
  for (let i = 0; i < segments.length; i += 6) {
    const d = pointSegmentDistanceSquared(q[0], q[1], q[2], segments, i);
    if (d < least) {
      least = d;
      at = i;
    }
  }
  const depth = radius - Math.sqrt(least);
  if (depth <= 0) return depth;
  const last = segments.length - 6;
  let inside = Infinity;
  if (at === 0) inside = Math.min(inside, pastEnd(segments, 0, 3, q));
  if (at === last) inside = Math.min(inside, pastEnd(segments, last + 3, -3, q));
  for (const end of solid.ends) {
    if (dist(q, end.centre) <= end.reach + radius) inside = Math.min(inside, offHosts(own.copes[end.end], q));
  }
  return inside >= ON_CUT ? depth : inside - ON_CUT;
}

/** How far a place is inward of a segment's end at i; the segment runs on toward i + on. */
function pastEnd(segments: Float64Array, i: number, on: 3 | -3, q: Vec): number {
  const from: Vec = [segments[i]!, segments[i + 1]!, segments[i + 2]!];
  const d = sub([segments[i + on]!, segments[i + on + 1]!, segments[i + on + 2]!], from);
  return dot(sub(q, from), d) / (Math.hypot(...d) || 1);
}

/** How far a place is outside all that an end is cut to (mm): the joint is what lies within. */
function offHosts({ joint }: CopeResult, q: Vec): number {
  if (!joint) return Infinity;
  const { landing, zero, quarter, out } = joint.axes;
  const v = sub(q, landing);
  return nearest(joint.solids, dot(v, zero), dot(v, quarter), dot(v, out));
}
