// biome-ignore-all lint/style/noNonNullAssertion: a spine has four numbers a place, and every pair read begins before its last place.
import { along, dot, scale, sub, type Vec } from "../../core/space/index.ts";
import { axesOf, type Camera, distanceOf } from "./camera.ts";
import { spineAt } from "./spread.ts";
import type { ViewTap } from "./types.ts";

/** A line of sight (car axes) and how much a CSS pixel covers (mm) at a depth along it. */
export interface Sight {
  readonly from: Vec;
  readonly dir: Vec;
  readonly pixelAt: (depth: number) => number;
}

/** Parallel rays start this far on the viewer's side of the target (mm). */
const FAR = 1e6;

/** The line of sight through a place of the picture: x right and y up from its middle, CSS pixels. */
export function sightAt(camera: Camera, x: number, y: number, pictureHeight: number): Sight {
  const { toward, right, up } = axesOf(camera);
  const pixel = camera.height / pictureHeight;
  const through = along(along(camera.target, right, x * pixel), up, y * pixel);
  const distance = distanceOf(camera);
  if (distance === Infinity) {
    return { from: along(through, toward, FAR), dir: scale(toward, -1), pixelAt: () => pixel };
  }
  const from = along(camera.target, toward, distance);
  const span = sub(through, from);
  const l = Math.hypot(span[0], span[1], span[2]);
  return { from, dir: scale(span, 1 / l), pixelAt: (depth) => (pixel * depth) / distance };
}

/** A bar for picking: x, y, z (less the origin) and station along its centreline, and its outside radius. */
export interface Pickable {
  readonly id: string;
  readonly origin: Vec;
  readonly spine: Float32Array;
  readonly radius: number;
}

export interface Picked extends ViewTap {
  readonly id: string;
}

/**
 * The bar under a tap: the first whose outside the line of sight meets, else the one that it misses by the fewest
 * pixels, if by no more than `reach`. `kept` says which places are drawn (a section may have taken some away).
 */
export function pickBar(
  sight: Sight,
  bars: readonly Pickable[],
  reach: number,
  kept: (p: Vec) => boolean = () => true,
): Picked | undefined {
  let hit: Picked | undefined;
  let hitDepth = Infinity;
  let near: Picked | undefined;
  let nearGap = reach;
  for (const bar of bars) {
    const { spine, radius, id } = bar;
    for (let i = 0; i + 4 < spine.length; i += 4) {
      const [a, b] = [spineAt(bar, i), spineAt(bar, i + 4)];
      const { t, depth, gap } = closestApproach(sight, a, b);
      if (depth <= 0) continue;
      const place = along(a, sub(b, a), t);
      if (!kept(place)) continue;
      const found = { id, place, along: spine[i + 3]! + t * (spine[i + 7]! - spine[i + 3]!) };
      if (gap <= radius) {
        const front = depth - Math.sqrt(radius * radius - gap * gap);
        if (front < hitDepth) {
          hit = found;
          hitDepth = front;
        }
      } else {
        const pixels = (gap - radius) / sight.pixelAt(depth);
        if (pixels < nearGap) {
          near = found;
          nearGap = pixels;
        }
      }
    }
  }
  return hit ?? near;
}

/** The point that is seen nearest to a place of the picture (CSS pixels from its upper left), if by no more than `reach`. */
export function pickPoint(
  points: Readonly<Record<string, { readonly at: Vec }>>,
  seen: (p: Vec) => { readonly x: number; readonly y: number } | undefined,
  [x, y]: readonly [number, number],
  reach: number,
): string | undefined {
  let found: string | undefined;
  let least = reach;
  for (const [id, { at }] of Object.entries(points)) {
    const s = seen(at);
    const off = s ? Math.hypot(s.x - x, s.y - y) : Infinity;
    if (off > least) continue;
    found = id;
    least = off;
  }
  return found;
}

/** Where a sight and a segment come closest: t on the segment (0 to 1), depth along the sight, the gap (mm). */
function closestApproach(
  { from, dir }: Sight,
  a: Vec,
  b: Vec,
): { readonly t: number; readonly depth: number; readonly gap: number } {
  const d = sub(b, a);
  const w = sub(a, from);
  const [dd, du, wu, wd] = [dot(d, d), dot(d, dir), dot(w, dir), dot(w, d)];
  const across = dd - du * du;
  const t = across > 1e-9 * dd ? Math.min(1, Math.max(0, (du * wu - wd) / across)) : 0;
  const p = along(w, d, t);
  const depth = dot(p, dir);
  const off = along(p, dir, -depth);
  return { t, depth, gap: Math.hypot(off[0], off[1], off[2]) };
}
