import type { End } from "../../job/types.ts";
import type { Vec } from "../../space/index.ts";
import type { Lip } from "../joint/index.ts";
import type { Pose } from "../stuff/index.ts";
import type { Push } from "../way/index.ts";

export type Joint = "slides" | "tips" | "locked" | "open";

/** Whether one bar goes in past what stands. Plain data. */
export interface Judged {
  readonly bar: string;
  /** Bars tacked before it. */
  readonly after: readonly string[];
  readonly goesIn: "free" | "spring" | "no";
  readonly joint: Joint;
  /** Whether "locked" is proved (no first-order motion) or only a search result. */
  readonly proved: boolean;
  /** From outside to the seat; empty where none was found. */
  readonly way: readonly Pose[];
  /** Least distance on the way to what it does not touch at its seat (mm), and to what. */
  readonly clearance?: number;
  readonly nearest?: string;
  /** How far its hosts must be sprung, or its joints stand open, a side (mm); 0 for a free one. */
  readonly spring: number;
  /** The part of that which leaving the joints takes; the rest is what it overlaps at its own seat. */
  readonly leaving: number;
  /** In words, by what kind of motion it leaves its joints, where not by a slide. */
  readonly how?: string;
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
  /** The search was stopped before it was done: no answer, whatever `goesIn` says. */
  readonly stopped?: true;
  /** In words; its lengths want writing in the reader's unit (`inUnit`). */
  readonly why: string;
}

export interface Effort {
  readonly seed: number;
  /** Nodes that a search may make. */
  readonly nodes: number;
  /** More springing than this is none (mm a side). */
  readonly most: number;
  readonly stop: () => boolean;
}
