import type { GlobalTest } from "../estimate/index.ts";
import type { Finding } from "../findings/index.ts";
import type { Vec } from "../space/index.ts";
import type { SlipCode } from "../units/index.ts";

/** Where the true place lies: one standard deviation along three directions square to each other, greatest first. */
export interface Ellipsoid {
  /** Half axes (mm). Of the true places 20 % lie within them; 95 % within 2.80 times as much. */
  readonly axes: Vec;
  /** Directions of the axes, length 1. */
  readonly directions: readonly [Vec, Vec, Vec];
}

/** A point that the readings determine (mm, car axes). */
export interface SurveyPoint {
  readonly id: string;
  readonly at: Vec;
  /** One standard deviation in x, y, z, from the stated errors alone (a priori). */
  readonly sd: Vec;
  /** The same with what the three have in common (mm²). */
  readonly covariance: readonly [Vec, Vec, Vec];
  readonly ellipsoid: Ellipsoid;
}

/** One reading against the adjusted points; mm, or degrees for slope and lean. */
export interface ReadingResult {
  /** In the job's list, from 0. */
  readonly index: number;
  readonly unit: "mm" | "deg";
  readonly read: number;
  readonly computed: number;
  /** Computed less read. A plumb: how far the points stand apart in plan. */
  readonly residual: number;
  /** Residual over its own a-priori standard deviation; null where nothing else checks the reading. */
  readonly normalized: number | null;
  /** Share of an error in this reading that shows in its residual, 0 to 1. */
  readonly redundancy: number;
}

/** A reading to take next. */
export type Advice =
  | { readonly kind: "tape"; readonly points: readonly [string, string] }
  | { readonly kind: "height" | "out" | "fore"; readonly point: string };

/** A reading that the others contradict. */
export interface Suspect {
  readonly index: number;
  readonly unit: "mm" | "deg";
  readonly read: number;
  /** What the readings that were kept say in its place. */
  readonly computed: number;
  /** Its normalised residual when it was taken out. */
  readonly normalized: number;
  /** The slip that would explain it: "typed in cm", "typed in inches", … */
  readonly slip?: SlipCode;
  /** Readings that would explain the misfit just as well: nothing tells which of them is wrong. */
  readonly among?: readonly number[];
}

/** A point that the readings leave free, and what would fix it. */
export interface Undetermined {
  readonly id: string;
  /** How many readings touch it. */
  readonly readings: number;
  /** To be taken, the most telling first. */
  readonly fix: readonly Advice[];
}

/** Points that could as well stand mirrored. */
export interface Mirrored {
  readonly points: readonly { readonly id: string; readonly at: Vec; readonly other: Vec }[];
  readonly settle: Advice;
}

/** The reading that would shrink the errors most. */
export interface NextBest {
  readonly reading: Advice;
  /** The point that gains most, and its error before and after: √(sx² + sy² + sz²) (mm). */
  readonly point: string;
  readonly before: number;
  readonly after: number;
}

/** One thing that places hang on: a reading (a plumb counts twice, once each way), or a coordinate given with an error. */
export interface Source {
  /** Index in the job's readings, or the point and which of its coordinates. */
  readonly of: { readonly reading: number } | { readonly point: string; readonly axis: 0 | 1 | 2 };
  readonly unit: "mm" | "deg";
  /** Its own standard deviation, as `unit` says. */
  readonly sd: number;
  /** How far it moves each coordinate of `Adjusted.joint` when it is off by one standard deviation (mm). */
  readonly by: readonly number[];
}

/** Outcome of one adjustment. */
export interface Adjusted {
  readonly points: ReadonlyMap<string, SurveyPoint>;
  /**
   * What the errors of determined points have in common: row and column 3k + i is coordinate i of the k-th of `ids`
   * (mm²). Points whose places are exact are not among them. `sources` is the same taken apart: Σ by·byᵀ = covariance.
   */
  readonly joint: {
    readonly ids: readonly string[];
    readonly covariance: readonly (readonly number[])[];
    readonly sources: readonly Source[];
  };
  /** A-posteriori standard deviation of unit weight; null where nothing is left to check by. */
  readonly sigma0: number | null;
  /** Equations beyond those needed: each plumb counts two, each coordinate known with an error one. */
  readonly freedom: number;
  /** Σ (residual/sd)², the greatest that chance alone gives in 95 of 100, and whether it stays below. */
  readonly test?: GlobalTest;
  readonly readings: readonly ReadingResult[];
  /** The shell's lean (degrees) and its standard deviation, where it was read. */
  readonly lean?: Readonly<
    Partial<Record<"along" | "across", { readonly angle: number; readonly sd: number }>>
  >;
}

export interface Survey extends Adjusted {
  /** False: no solution was found, and everything here is empty. */
  readonly converged: boolean;
  readonly suspects: readonly Suspect[];
  readonly undetermined: readonly Undetermined[];
  readonly mirrored: readonly Mirrored[];
  /** The same without the suspects. */
  readonly cleaned: Adjusted;
  readonly next?: NextBest;
  readonly findings: readonly Finding[];
}
