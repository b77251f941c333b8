// biome-ignore-all lint/style/noNonNullAssertion: i runs below LINES, the length of ROUND and of each wall's back and square; w is the index of the wall that the row was made of.
import { GRAZE, sinCosDeg } from "../numeric/index.ts";
import type { Vec } from "../space/index.ts";
import type { JointHost } from "./joint.ts";
import { LINES } from "./round.ts";

/**
 * One straight cut of a hole saw or mill (mm, radians). Its axis crosses the tube `centre` back from the landing,
 * leans `notch` off square and passes the tube's axis at `offset`.
 */
export interface SawCut {
  /** Outside radius of the saw. */
  readonly radius: number;
  /** ν: off square, 0 when saw and tube stand square; γ = 90° − ν. Never negative. */
  readonly notch: number;
  /** φ of the heel: the side where tube and saw axis make the sharp angle. */
  readonly clock: number;
  /** How far the saw's axis lies from the tube's, toward 90° past the heel (counter-clockwise looking at the cut end). */
  readonly offset: number;
  /** Back of the point where the saw's axis passes the tube's axis; negative: beyond the landing. */
  readonly centre: number;
}

/**
 * Metal thinner than this, square to the host, is a feather (mm): less than a saw's run-out, it counts neither as needed
 * where it is cut away nor as standing in the way where it is left. Without it the rim's grazing lines, along which a
 * hair's thickness is millimetres long, would decide the whole cut.
 */
export const FEATHER = 0.05;

/**
 * Back (mm) at which the saw's surface cuts the wall line at radius ρ, φ given by its cosine and sine; NaN where the
 * saw passes the line by, by more than `touch` (mm). geometry.md: b = (√(S² − (ρ sin φ' − e)²) + ρ cos φ' cos γ)/sin γ, φ' from the heel.
 */
export function sawBack(cut: SawCut, rho: number, cosPhi: number, sinPhi: number, touch = GRAZE): number {
  return cutLines(cut, touch)(rho, cosPhi, sinPhi);
}

/** `sawBack` of one cut for many lines: what hangs on the cut alone is figured once. */
export function cutLines(
  cut: SawCut,
  touch = GRAZE,
): (rho: number, cosPhi: number, sinPhi: number) => number {
  const { radius, offset, centre } = cut;
  const c = Math.cos(cut.clock);
  const s = Math.sin(cut.clock);
  const lean = Math.sin(cut.notch);
  const square = Math.cos(cut.notch);
  return (rho, cosPhi, sinPhi) => {
    const across = rho * (sinPhi * c - cosPhi * s) - offset;
    const deep = radius * radius - across * across;
    if (deep < 0 && Math.abs(across) - radius > touch) return Number.NaN;
    const toHeel = rho * (cosPhi * c + sinPhi * s);
    return (Math.sqrt(Math.max(0, deep)) + toHeel * lean) / square + centre;
  };
}

/** The saw cut that makes exactly the seat on a straight host: the saw as wide as the host, on the host's own axis. */
export function cutOnto(host: JointHost, radius = host.radius): SawCut {
  // Of the host's two directions the one that leans inward points to the heel; square on, either will do.
  const d: Vec = host.dir[2] > 0 ? [-host.dir[0], -host.dir[1], -host.dir[2]] : host.dir;
  const lateral = Math.hypot(d[0], d[1]);
  const clock = Math.atan2(d[1], d[0]);
  const c = Math.cos(clock);
  const s = Math.sin(clock);
  const [ax, ay, az] = host.at;
  return {
    radius,
    notch: quiet(Math.atan2(-d[2], lateral)),
    clock,
    offset: quiet(ay * c - ax * s),
    centre: quiet(-(az - ((ax * c + ay * s) / lateral) * d[2])),
  };
}

/** Rounding's residue of nothing is nothing. */
const quiet = (x: number): number => (Math.abs(x) < 1e-9 ? 0 : x);

/** One wall of an end: radius, back at the 360 lines, and how squarely each line meets the host there (sine, 0 grazing). */
export interface Wall {
  readonly rho: number;
  readonly back: Float64Array;
  readonly square: Float64Array;
}

/** A cut moved to its place along the tube, and what it leaves (mm, φ in whole degrees). */
export interface Settled {
  readonly cut: SawCut;
  /** The most metal left standing, square to the host, and the φ where. */
  readonly most: number;
  readonly mostAt: number;
  /** Unfiled, the bar stands off by this along its axis. */
  readonly standsOff: number;
}

/** How a saw cut compares with the curve that the joint needs (mm, φ in whole degrees). */
export interface SawFit extends Settled {
  /** Gap at each of the 360 lines of the outside, square to the host, when the bar is set up unfiled; NaN where one misses. */
  readonly gaps: Float64Array;
  readonly gap: number;
  readonly gapAt: number;
}

/** cos and sin of the 360 lines. */
export const ROUND: readonly (readonly [number, number])[] = Array.from({ length: LINES }, (_, i) => {
  const [sin, cos] = sinCosDeg(i);
  return [cos, sin] as const;
});

/**
 * Moves a cut along the tube until it takes no metal that the joint needs (at no line of either wall does it go
 * deeper than the curve by more than a feather, and at one it just does), and says what it leaves. Left metal is a
 * first-order distance square to the host, as a feeler reads it: along a line that grazes, millimetres are no gap.
 * Undefined where the saw is too small or too far aside to cut a line that the joint needs cut.
 */
export function settle(cut: SawCut, walls: readonly Wall[]): Settled | undefined {
  let shift = Infinity;
  const cutAt = cutLines(cut, FEATHER);
  const stands = walls.map(({ rho, back, square }) => {
    const out = new Float64Array(LINES);
    for (let i = 0; i < LINES; i++) {
      const [c, s] = ROUND[i]!;
      out[i] = back[i]! - cutAt(rho, c, s);
      const deepest = out[i]! + FEATHER / square[i]!;
      if (deepest < shift) shift = deepest;
      else if (Number.isNaN(out[i]!) && !Number.isNaN(back[i]!)) shift = Number.NaN;
    }
    return out;
  });
  if (!Number.isFinite(shift)) return undefined;
  let most = 0;
  let mostAt = 0;
  let standsOff = -Infinity;
  stands.forEach((out, w) => {
    for (let i = 0; i < LINES; i++) {
      const left = out[i]! - shift;
      const square = walls[w]!.square[i]!;
      if (left * square > most) {
        most = left * square;
        mostAt = i;
      }
      if (left - FEATHER / square > standsOff) standsOff = left - FEATHER / square;
    }
  });
  return { cut: { ...cut, centre: cut.centre + shift }, most, mostAt, standsOff };
}
