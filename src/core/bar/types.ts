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
  /** Counted from 1 at end A. */
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

/**
 * The centreline of a bar: straight, bend, straight, … from end A (station 0) to end B (station `length`).
 * The first and the last piece are always straight.
 */
export interface Centreline {
  readonly pieces: readonly Piece[];
  readonly bends: readonly Bend[];
  readonly length: number;
  readonly lastStraight: number;
  readonly start: Vec;
  readonly finish: Vec;
}
