import type { Vec } from "../space/index.ts";

/** A straight piece of a centreline (mm). Its length may be 0 at an end of a bar that begins with a bend. */
export interface Straight {
  readonly kind: "straight";
  /** Station where it starts (mm). */
  readonly s0: number;
  readonly from: Vec;
  /** Direction from A to B, length 1. */
  readonly dir: Vec;
  readonly length: number;
}

/** A bent piece of a centreline (mm, radians). */
export interface Arc {
  readonly kind: "arc";
  readonly s0: number;
  readonly centre: Vec;
  /** From the centre to where the bend starts, length 1. */
  readonly x: Vec;
  /** Direction of the centreline where the bend starts, length 1; the bend turns from x toward y. */
  readonly y: Vec;
  /** Bend-plane normal x × y, the direction of d_i × d_i+1, length 1. */
  readonly n: Vec;
  readonly radius: number;
  /** Bend angle (radians). */
  readonly angle: number;
  /** radius · angle */
  readonly length: number;
}

export type Piece = Straight | Arc;

/** One bend of a bar, listed from A. */
export interface Bend {
  /** Counted from 1 at end A, corners that are left out counted with the bends: a bend keeps its number. */
  readonly n: number;
  readonly corner: Vec;
  readonly clr: number;
  /** Radians. */
  readonly angle: number;
  /** Turn from the bend before, radians, in (-π, π], positive clockwise seen from A toward B; 0 for bend 1. */
  readonly rotation: number;
  /** Station of the bend's start and end. */
  readonly start: number;
  readonly end: number;
  /** Straight before it, back to the end of the bend before or to the A landing. */
  readonly straightBefore: number;
  readonly arc: Arc;
}

/** A corner of a bar that is too small to make: the bar is figured without it, its neighbours joined straight. */
export interface SmallCorner {
  /** Its number among all corners of the bar, from 1 at end A. */
  readonly n: number;
  /** Its place as the path has it, beside the centreline. */
  readonly corner: Vec;
  /** How far the path turns there (radians). */
  readonly angle: number;
  /** Normal of the plane in which the path turns there, the direction of d_i × d_i+1, length 1. */
  readonly normal: Vec;
  /** How far it lies from the line that joins its neighbours (mm): what leaving it out costs. */
  readonly off: number;
  /** Station of the centreline beside it (mm). */
  readonly along: number;
}

/**
 * The centreline of a bar: straight, bend, straight, … from end A (station 0) to end B (station `length`).
 * The first and the last piece are always straight.
 */
export interface Centreline {
  readonly pieces: readonly Piece[];
  readonly bends: readonly Bend[];
  /** Corners left out, listed from A; they are no bends, and no piece knows of them. */
  readonly small: readonly SmallCorner[];
  readonly length: number;
  readonly lastStraight: number;
  readonly start: Vec;
  readonly finish: Vec;
}
