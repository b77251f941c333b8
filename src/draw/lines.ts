import type { Fill, LineKind } from "./types.ts";

export interface LineType {
  /** mm */
  readonly width: number;
  /** Dash, gap, dash, gap… in mm; empty: continuous. */
  readonly dash: readonly number[];
}

/**
 * Patterns after ISO 128-2:2020, tables 1 and 3, in multiples of the width d (from memory): dash 12 d, long dash 24 d,
 * dot 0.5 d, gap 3 d.
 */
const NARROW = 0.25;
const DASHED = [12, 3].map((n) => n * NARROW);
const LONG_DASH_DOT = [24, 3, 0.5, 3].map((n) => n * NARROW);
const LONG_DASH_DOUBLE_DOT = [24, 3, 0.5, 3, 0.5, 3].map((n) => n * NARROW);

/** Widths from ISO 128's row (0.18, 0.25, 0.35, 0.5, 0.7), wide to narrow 2 : 1; the frame after ISO 5457. */
export const LINES: Readonly<Record<LineKind, LineType>> = {
  visible: { width: 0.5, dash: [] },
  narrow: { width: NARROW, dash: [] },
  dimension: { width: NARROW, dash: [] },
  hatch: { width: NARROW, dash: [] },
  hidden: { width: NARROW, dash: DASHED },
  centre: { width: NARROW, dash: LONG_DASH_DOT },
  // between the two, so that it is told from an outline, and the saw has one line to follow
  cut: { width: 0.35, dash: [] },
  adjacent: { width: NARROW, dash: LONG_DASH_DOUBLE_DOT },
  join: { width: NARROW, dash: LONG_DASH_DOUBLE_DOT },
  construction: { width: 0.18, dash: [] },
  frame: { width: 0.7, dash: [] },
};

/** Ink is black: a card must copy and fax. */
export const INK = "#000000";

export const FILLS: Readonly<Record<Fill, string>> = { ink: INK, shade: "#e0e0e0", paper: "#ffffff" };
