import type { End } from "../job/types.ts";
import type { Vec } from "../space/index.ts";

/** The shaped end of a bar as a pair of curves round it. Lengths mm; φ in degrees as on the tube. */
export interface Cope {
  readonly bar: string;
  readonly end: End;
  /** IDs of the bars (host first) or of the plate; empty for a square end. */
  readonly onto: readonly string[];
  readonly kind: "square" | "plate" | "on";
  readonly landing: Vec;
  /** Outward direction of the centreline at the end. */
  readonly out: Vec;
  /** e0, the zero line's direction; e90 = out × zero. */
  readonly zero: Vec;
  /** "up", "forward" or "bend N". */
  readonly zeroLine: string;
  /** OD/2 and OD/2 − wall. */
  readonly outerRadius: number;
  readonly boreRadius: number;
  /** Back at φ = 0, 1, … 359 degrees; NaN where the wall line misses every host. */
  readonly outer: Float64Array;
  readonly bore: Float64Array;
  /** Least back over both walls and all φ: the long point, and the φ where it stands (degrees). */
  readonly least: number;
  readonly leastAt: number;
  /** Greatest back over both walls (the short point). */
  readonly greatest: number;
  /** Whether the cut reaches into a bend of the bar itself. */
  readonly bentInJoint: boolean;
  /** Arcs of the rim that miss, degrees, from < to, none across 0. */
  readonly misses: readonly (readonly [number, number])[];
  /** Arcs, likewise, that meet only what the host would be, ran it on past its end: metal that is not there. */
  readonly beyondHost: readonly (readonly [number, number])[];
}
