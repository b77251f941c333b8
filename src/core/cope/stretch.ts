// biome-ignore-all lint/style/noNonNullAssertion: indices are taken modulo ROUND, the length of seen.
import { GRAZE, goldenLeast } from "../numeric/index.ts";
import { turn, type Vec } from "../space/index.ts";
import { type Host, nearest } from "./host.ts";
import { type EndPath, pathPieceAt } from "./path.ts";

/** An unbroken run of rings, as backs (mm): `outer` ≤ `inner`. */
export interface Stretch {
  readonly outer: number;
  readonly inner: number;
}

/** Whether two stretches have a ring in common. */
export const overlap = (a: Stretch, b: Stretch): boolean => a.inner >= b.outer && a.outer <= b.inner;

/** Places round a ring that are looked at before the nearest is refined. */
const ROUND = 24;
const TURN = (2 * Math.PI) / ROUND;
const SIDES = Array.from({ length: ROUND }, (_, i) => [Math.cos(i * TURN), Math.sin(i * TURN)] as const);

/** No gap or touch between rings shorter than this is looked for (mm along the bar). */
const LEAST = 0.05;

/**
 * Signed distance (mm) from the ring of an end's walls at back b, outside and bore, to the nearest of some hosts: the
 * least of ROUND places round each, refined where it decides whether the ring meets them.
 */
export function ringClearance(
  hosts: readonly Host[],
  path: EndPath,
  radii: readonly [number, number],
  b: number,
): number {
  const ring = ringAt(path, b);
  let least = Infinity;
  for (const rho of radii) {
    const seen = SIDES.map(([c, s]) => clearOf(hosts, ring, rho * c, rho * s));
    least = Math.min(least, ...seen);
    if (least <= GRAZE) return least;
    // Between two places the distance can fall by no more than half the arc between them.
    const slack = (rho * TURN) / 2;
    for (let i = 0; i < ROUND; i++) {
      const f = seen[i]!;
      if (f - slack > GRAZE || f > seen[(i + ROUND - 1) % ROUND]! || f > seen[(i + 1) % ROUND]!) continue;
      const at = (a: number): number => clearOf(hosts, ring, rho * Math.cos(a), rho * Math.sin(a));
      const best = goldenLeast(
        at,
        (i - 1) * TURN,
        (i + 1) * TURN,
        1e-5,
        (f, width) => f <= GRAZE || f - rho * width > GRAZE,
      );
      least = Math.min(least, at(best));
    }
  }
  return least;
}

interface Ring {
  readonly centre: Vec;
  readonly e0: Vec;
  readonly e90: Vec;
}

const clearOf = (hosts: readonly Host[], { centre, e0, e90 }: Ring, x: number, y: number): number =>
  nearest(
    hosts,
    centre[0] + x * e0[0] + y * e90[0],
    centre[1] + x * e0[1] + y * e90[1],
    centre[2] + x * e0[2] + y * e90[2],
  );

/** A ring's middle and its axes at back b, in the end's axes. */
function ringAt(path: EndPath, b: number): Ring {
  const piece = pathPieceAt(path, b);
  const { at, dir, e0, e90, bend } = piece;
  const s = b - piece.b0;
  if (!bend) return { centre: [at[0] + s * dir[0], at[1] + s * dir[1], at[2] + s * dir[2]], e0, e90 };
  const { out, normal, radius } = bend;
  const angle = s / radius;
  const [c, d] = [radius * (Math.cos(angle) - 1), radius * Math.sin(angle)];
  return {
    centre: [
      at[0] + c * out[0] + d * dir[0],
      at[1] + c * out[1] + d * dir[1],
      at[2] + c * out[2] + d * dir[2],
    ],
    e0: turn(e0, normal, angle),
    e90: turn(e90, normal, angle),
  };
}

/** How the rings of one end clear some hosts, and how fast that can change along the bar. */
export interface Rings {
  readonly clear: (b: number) => number;
  readonly speed: number;
  /** Backs between which there are rings: beyond the landing as far as the march goes, to the other landing. */
  readonly outermost: number;
  readonly innermost: number;
}

/**
 * The joint with a host: the unbroken stretch of rings that meet it (signed distance ≤ GRAZE) which holds, or lies
 * nearest, the landing. Undefined where none meets it. A stretch that is found longer than `limit` is left at that.
 */
export function stretchOf(rings: Rings, limit: number): Stretch | undefined {
  const inward = nextTouch(rings, 0, 1);
  const outward = inward === 0 ? 0 : nextTouch(rings, 0, -1);
  const at = inward === undefined || (outward !== undefined && -outward < inward) ? outward : inward;
  if (at === undefined) return undefined;
  const inner = lastTouch(rings, at, 1, limit);
  return { outer: lastTouch(rings, at, -1, limit), inner };
}

/** The first ring from back b on, in a direction, that meets the hosts; undefined where none does. */
function nextTouch(rings: Rings, b: number, way: 1 | -1): number | undefined {
  const { clear, speed, outermost, innermost } = rings;
  for (let at = b; at >= outermost && at <= innermost; ) {
    const free = clear(at);
    if (free <= GRAZE) return at;
    at += way * Math.max(LEAST, free / speed);
  }
  return undefined;
}

/** The last ring, to LEAST, of the stretch that holds back b, in a direction. */
function lastTouch(rings: Rings, b: number, way: 1 | -1, limit: number): number {
  const { clear, speed } = rings;
  const bound = way === 1 ? rings.innermost : rings.outermost;
  for (let at = b; ; ) {
    if (way * (at - bound) >= 0) return bound;
    const depth = GRAZE - clear(at);
    if (depth < 0 || way * (at - b) > limit) return at;
    at += way * Math.max(LEAST, depth / speed);
  }
}

/** The first ring inward from back b on that clears the hosts by enough to start wall lines from; `innermost` if none. */
export const clearFrom = (rings: Rings, b: number): number =>
  lastTouch({ ...rings, clear: (at) => rings.clear(at) - GRAZE }, b, 1, Number.POSITIVE_INFINITY);
