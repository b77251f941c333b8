import type { Reading } from "./figure.ts";

export interface Report {
  readings: Reading[];
  /** Digits that nobody reads, with what is round them. */
  unread: string[];
  /** What is drawn elsewhere than it should be, and what is missing. */
  faults: string[];
  /** Runs of digits printed on all files. */
  printed: number;
}

/** Paper that the wraps are made for, mm, where the call says nothing. */
export const PAPER = 0.1;
export const ENDS = ["A", "B"] as const;
