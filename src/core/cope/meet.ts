// biome-ignore-all lint/style/noNonNullAssertion: k is 0 or 1, and an outline has two halves.
import { GRAZE, goldenLeast, ROOT } from "../numeric/index.ts";
import type { Cylinder, HostPiece, Slab } from "./host.ts";
import { type Look, lookAt, lookOutAtBow, type Seen } from "./look.ts";
import type { WallLine } from "./path.ts";

/** A straight line (x, y, z) of an end's axes from z0 outward to z1, and the z at which a piece was met; NaN: none. */
export interface Ray {
  x: number;
  y: number;
  z0: number;
  z1: number;
  met: number;
}

/**
 * Finds the z (mm) at which a ray first meets a piece's outside; NaN where it passes it by GRAZE or more. A line that
 * comes within GRAZE touches the piece at its closest approach. The line must be outside the piece at z0.
 */
export type Meet = (ray: Ray) => void;

/** How straight lines meet one piece. */
export function meetOf(piece: HostPiece): Meet {
  if (piece.kind === "cylinder") return (ray) => meetCylinder(piece, ray);
  if (piece.kind === "slab") return (ray) => meetSlab(piece, ray);
  const { look, to } = lookOutAtBow(piece);
  const here = nowhere();
  return (ray) => {
    to(ray);
    ray.met = -march(look, here, -ray.z0, -ray.z1);
  };
}

const nowhere = (): Seen => ({ s: 0, clear: 0, slope: 0, step: 0 });

/**
 * A block is the overlap of what is behind its face and of what is within its sides: the line is in it from the last
 * of the places where it comes into these to the first where it leaves one. Sides wider by GRAZE catch a touch.
 */
function meetSlab(slab: Slab, ray: Ray): void {
  ray.met = intoSlab(slab, ray, 0);
  if (Number.isNaN(ray.met)) ray.met = intoSlab(slab, ray, GRAZE);
}

function intoSlab(slab: Slab, { x, y, z0, z1 }: Ray, wider: number): number {
  const { at, normal: n, outline } = slab;
  const [wx, wy] = [x - at[0], y - at[1]];
  let enters = z0 - at[2];
  let leaves = z1 - at[2];
  // Where `slope · z + level` is no more than 0.
  const below = (slope: number, level: number): void => {
    if (Math.abs(slope) < 1e-12) {
      if (level > 0) leaves = Number.NEGATIVE_INFINITY;
    } else if (slope < 0) enters = Math.max(enters, -level / slope);
    else leaves = Math.min(leaves, -level / slope);
  };
  below(n[2], wx * n[0] + wy * n[1]);
  if (outline.kind === "rectangle") {
    [outline.x, outline.y].forEach((e, k) => {
      const across = wx * e[0] + wy * e[1];
      const half = outline.half[k]! + wider;
      below(e[2], across - half);
      below(-e[2], -across - half);
    });
  } else {
    // The part of the line square to the normal: its distance from the middle squared is a quadratic in z.
    const a = 1 - n[2] * n[2];
    const up = wx * n[0] + wy * n[1];
    const b = -up * n[2];
    const c = wx * wx + wy * wy - up * up - (outline.radius + wider) ** 2;
    if (a < 1e-12) {
      if (c > 0) return Number.NaN;
    } else {
      const root = b * b - a * c;
      if (root < 0) return Number.NaN;
      enters = Math.max(enters, (-b - Math.sqrt(root)) / a);
      leaves = Math.min(leaves, (-b + Math.sqrt(root)) / a);
    }
  }
  return enters <= leaves ? enters + at[2] : Number.NaN;
}

/**
 * The squared distance to the axis is a quadratic in z; its lesser root is where the line goes in. Where that is past
 * an end of the axis, the line can go in only through the ball about that end: past a bend's start the ball is inside
 * the bend, past the end of the host it is the end of all that is there.
 */
function meetCylinder(c: Cylinder, ray: Ray): void {
  const { x, y, z0, z1 } = ray;
  const d = c.dir;
  const wx = x - c.at[0];
  const wy = y - c.at[1];
  const across = wx * d[0] + wy * d[1];
  const A = d[0] * d[0] + d[1] * d[1];
  ray.met = Number.NaN;
  // Parallel to the host it can only meet an end.
  if (A < 1e-18) {
    meetBall(c, d[2] > 0 ? c.t0 : c.t1, ray);
    return;
  }
  const B = -d[2] * across;
  const C = wx * wx + wy * wy - across * across;
  const closest = -B / A;
  const passes = Math.sqrt(Math.max(0, C - (B * B) / A));
  if (passes > c.h + GRAZE) return;
  const half = passes < c.h ? Math.sqrt((c.h * c.h - passes * passes) / A) : 0;
  const t = across + (closest - half) * d[2];
  if (t < c.t0 || t > c.t1) {
    meetBall(c, t < c.t0 ? c.t0 : c.t1, ray);
    return;
  }
  const z = c.at[2] + closest - half;
  if (z >= z0 && z <= z1) ray.met = z;
}

/** Where the line goes into the ball of a cylinder's radius about the place t of its axis. */
function meetBall(c: Cylinder, t: number, ray: Ray): void {
  if (!Number.isFinite(t)) return;
  const passes = Math.hypot(ray.x - c.at[0] - t * c.dir[0], ray.y - c.at[1] - t * c.dir[1]);
  if (passes > c.h + GRAZE) return;
  const half = passes < c.h ? Math.sqrt(c.h * c.h - passes * passes) : 0;
  const z = c.at[2] + t * c.dir[2] - half;
  if (z >= ray.z0 && z <= ray.z1) ray.met = z;
}

/** A line settles in a few tens of steps; more than this is a broken invariant, never a miss. */
const STEPS = 2000;

/**
 * Length s at which a wall line, followed from `from` outward to `to` (from ≥ to), first meets a piece's outside; NaN
 * where it passes it by GRAZE or more. It must be outside at `from`.
 *
 * Marches by steps that cannot pass the surface (`Look`). Where the clearance falls and then rises its least is sought,
 * so that a touch within GRAZE is found however the steps go.
 */
export const meetWall = (piece: HostPiece, line: WallLine, from: number, to: number): number =>
  march(lookAt(piece, line), nowhere(), from, to);

function march(look: Look, here: Seen, from: number, to: number): number {
  const most = from - to;
  let t = 0;
  let before = 0;
  let clearBefore = Infinity;
  let falling = false;
  for (let i = 0; i < STEPS; i++) {
    here.s = from - t;
    look(here);
    const { clear, slope, step } = here;
    if (clear <= 0) return from - t;
    // Begun at a touch, where the piece of line before this one ended.
    if (i === 0 && slope >= 0 && clear < GRAZE) return from;
    if (falling && slope > 0 && (clearBefore + clear - (t - before)) / 2 < GRAZE) {
      const at = (d: number): number => {
        here.s = from - d;
        look(here);
        return here.clear;
      };
      const touch = goldenLeast(at, before, t, ROOT, cannotTouch);
      if (at(touch) < GRAZE) return from - touch;
    }
    if (step < ROOT) return from - t;
    if (t >= most) return Number.NaN;
    falling = slope < 0;
    before = t;
    clearBefore = clear;
    t = Math.min(most, t + step);
  }
  throw new Error(`a wall line did not settle in ${STEPS} steps`);
}

/** The clearance changes no faster than the line is long. */
const cannotTouch = (least: number, width: number): boolean => least - width > GRAZE;
