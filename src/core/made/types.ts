import type { Centreline } from "../bar/index.ts";
import type { EndAxes } from "../cope/index.ts";
import type { End, Tube } from "../job/types.ts";
import type { Vec } from "../space/index.ts";
import type { BarShape, Easing } from "../trestles/index.ts";

/** How far a bar is tube: from the first saw cut on. */
export type MadeStep = "sawn" | "bent" | "notched";

/** The edge of a notch as it was cut, in its end's frame (mm): one place a degree, undefined where nothing was cut. */
export interface Rim {
  readonly outer: readonly (Vec | undefined)[];
  readonly bore: readonly (Vec | undefined)[];
}

/** A bar that exists, wherever it lies. Lengths mm, angles radians. */
export interface MadeBar {
  readonly id: string;
  readonly step: MadeStep;
  readonly tube: Tube;
  /** What the stick was sawn to. */
  readonly sawn: number;
  /** Its measures with the ends as sawn; one straight until it is bent. */
  readonly shape: BarShape;
  /** Tube from each sawn end to the landing it was made for; less than 0 where the landing is past the end. */
  readonly over: Readonly<Record<End, number>>;
  /** Its centreline from landing to landing, where it was to be; and the frames of both ends there. */
  readonly line: Centreline;
  readonly frames: Readonly<Record<End, EndAxes>>;
  /** The notches that are cut. */
  readonly rims: Readonly<Partial<Record<End, Rim>>>;
}

/** Why a made bar is judged as it is. */
export type Reason =
  /** It can be used as it is: tube is left over within what is allowed, or no gap is over the shop's. */
  | "serves"
  /** More tube is left over than the allowance. */
  | "long"
  | "short"
  /** The tube has another size, or is of another material. */
  | "other-tube"
  /** It has so many bends, and so many are wanted. */
  | "other-bends"
  /** A bend or two eased make it fit. */
  | "eased"
  /** It cannot be laid so that both ends land. */
  | "off"
  /** One end's notch, or both, cut again. */
  | "recut"
  /** A gap over the shop's, and not metal enough to cut again. */
  | "gap"
  /** Its old notches enter the new hosts wherever it is put, and not metal enough to cut again. */
  | "foul"
  /** The search for its place ended without an answer: it may fit or not. */
  | "not-found";

/** What becomes of one made bar. Lengths mm, angles radians. */
export interface MadeVerdict {
  readonly bar: string;
  readonly step: MadeStep;
  readonly verdict: "good" | "saw off" | "ease" | "notch again" | "unknown" | "make again";
  readonly reason: Reason;
  /** Tube beyond the long point that is wanted now; negative: missing. */
  readonly ends?: Readonly<Record<End, number>>;
  /** Greatest gap round each end whose notch was kept. */
  readonly gap?: Readonly<Partial<Record<End, number>>>;
  /** Greatest gap that the shop accepts; beside `gap`. */
  readonly accepted?: number;
  readonly ease?: readonly Easing[];
  /** How far it enters its hosts where it enters them least; the gap is then the one beside it. */
  readonly enters?: number;
  /** Tube missing in all. */
  readonly short: number;
  /** Ends whose notch is to be cut again. */
  readonly again?: readonly End[];
}
