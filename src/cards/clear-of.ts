import { type Mark, type Point, type Rect, text, textWidth } from "../draw/index.ts";

/** What words keep clear of: places of tubes' middle lines with how far the tubes reach from them, and other boxes. */
export interface Obstacles {
  readonly axis: readonly Point[];
  readonly half: number;
  readonly boxes: readonly Rect[];
}

/** Between words and what they keep clear of, mm. */
const AIR = 0.8;

/** Cosine of the angle beyond which a direction counts as straight across (67.5°). */
const LEVEL = 0.3827;

/** A polyline's places no farther apart than `step`. */
export function places(line: readonly Point[], step: number): Point[] {
  return line.slice(1).flatMap((b, i) => {
    const a = line[i] ?? b;
    const count = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / step));
    return Array.from({ length: count + 1 }, (_, k): Point => {
      const t = k / count;
      return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    });
  });
}

/** From a place to a box; 0 inside it. */
const off = ([x, y]: Point, r: Rect): number =>
  Math.hypot(Math.max(r.x - x, 0, x - r.x - r.width), Math.max(r.y - y, 0, y - r.y - r.height));

const apart = (a: Rect, b: Rect): number =>
  Math.hypot(
    Math.max(a.x - b.x - b.width, 0, b.x - a.x - a.width),
    Math.max(a.y - b.y - b.height, 0, b.y - a.y - a.height),
  );

const clearance = (box: Rect, { axis, half, boxes }: Obstacles): number =>
  Math.min(...axis.map((p) => off(p, box) - half), ...boxes.map((b) => apart(b, box)));

/**
 * Words beside a ring of radius `ring` round `at`, on the side toward `way` (a direction on the sheet) if they are
 * clear of everything there, else on the next side that is, else where they are clearest.
 */
export function wordsBeside(
  said: string,
  size: number,
  ring: { readonly at: Point; readonly radius: number; readonly way: Point },
  obstacles: Obstacles,
): { readonly mark: Mark; readonly box: Rect } {
  const width = textWidth(said, size);
  const { at, radius, way } = ring;
  const spots = [0, 45, -45, 90, -90, 135, -135, 180].map((turn): Rect => {
    const angle = Math.atan2(way[1], way[0]) + (turn * Math.PI) / 180;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    // the box touches the ring's circle, grown by the air, with the middle of a side or with a corner
    const [x, y] = [at[0] + c * (radius + AIR), at[1] + s * (radius + AIR)];
    return {
      x: x - width * (Math.abs(c) < LEVEL ? 0.5 : c > 0 ? 0 : 1),
      y: y - size * (Math.abs(s) < LEVEL ? 0.5 : s > 0 ? 0 : 1),
      width,
      height: size,
    };
  });
  const free = spots.find((box) => clearance(box, obstacles) >= AIR);
  const best = free ?? spots.reduce((a, b) => (clearance(b, obstacles) > clearance(a, obstacles) ? b : a));
  return { mark: text([best.x, best.y + best.height], said, size), box: best };
}
