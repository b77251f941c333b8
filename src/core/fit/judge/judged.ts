import type { Phrase } from "../../findings/index.ts";
import type { End } from "../../job/types.ts";
import type { Vec } from "../../space/index.ts";
import type { Lip } from "../joint/index.ts";
import type { Pose } from "../scene/index.ts";
import type { How, Push } from "../way/index.ts";

export type Joint = "slides" | "tips" | "locked" | "open";

/** Whether one bar goes in past what stands. Plain data. */
export interface Judged {
  readonly bar: string;
  /** Bars tacked before it. */
  readonly after: readonly string[];
  /**
   * "touches": nothing gives, but on its way or at its seat it overlaps what stands by hundredths (`touches`). "unknown":
   * nobody looked, or not to the end.
   */
  readonly goesIn: "free" | "touches" | "spring" | "no" | "unknown";
  readonly joint: Joint;
  /** Whether "locked" is proved (no first-order motion) or only a search result. */
  readonly proved: boolean;
  /** From outside to the seat; empty where none was found. */
  readonly way: readonly Pose[];
  /** Least distance on the way to what it does not touch at its seat (mm), and to what. */
  readonly clearance?: number;
  readonly nearest?: string;
  /** Where it touches: what it overlaps most, and by how much (mm, 0.01 to 0.05). */
  readonly touches?: { readonly id: string; readonly by: number };
  /** Where a way was found, but its check met something by too much: that, and by how much (mm). */
  readonly met?: { readonly id: string; readonly by: number };
  /** What was there to go past. */
  readonly past: readonly Past[];
  /** How far its hosts must be sprung, or its joints stand open, a side (mm); 0 for a free one. */
  readonly spring: number;
  /** The part of that which leaving the joints takes; the rest is what it overlaps at its own seat. */
  readonly leaving: number;
  /** By what kind of motion it leaves its joints, where not by a slide. */
  readonly how?: How;
  /** Where that springing is at its greatest. */
  readonly pushes: readonly Push[];
  /** The greatest force at any of these (N), by a linear model of the frame so far; absent where none can be told. */
  readonly force?: number;
  /** Direction in which it slides out (length 1), if it does. */
  readonly slides?: Vec;
  readonly lips: readonly Lip[];
  /** What stood in the way of those tried, where it does not go in. */
  readonly blockedBy: readonly string[];
  /** What it overlaps at its own seat, by how much (mm). */
  readonly fouls: readonly { readonly id: string; readonly by: number }[];
  /** Openings of the body that the way leads through, from outside to the seat. */
  readonly through: readonly string[];
  /** Where it does not go in: the least found by which one end shorter lets it in (mm). */
  readonly shorten?: { readonly end: End; readonly by: number };
  /** Where it does not go in: the least gap found, at each of its joints, that lets it in (mm). */
  readonly gap?: number;
  /** Time was up before it was looked at, or before the search was done; `goesIn` is then "unknown". */
  readonly stopped?: true;
  /** Clauses, the one that matters most first; their words are in words. */
  readonly why: readonly Phrase[];
}

/** Kinds of things that a bar was held against. */
export type Past = "bars" | "plates" | "body" | "driver" | "floor";

/** Whether a bar goes in, touching or sprung as it may be. */
export const isIn = ({ goesIn }: Pick<Judged, "goesIn">): boolean =>
  goesIn === "free" || goesIn === "touches" || goesIn === "spring";

export interface Effort {
  readonly seed: number;
  /** Nodes that a search may make. */
  readonly nodes: number;
  /** More springing than this is none (mm a side). */
  readonly most: number;
  readonly stop: () => boolean;
}
