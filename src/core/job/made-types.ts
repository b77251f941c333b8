import type { End, Over } from "./reading-types.ts";

/** Readings of a bar as it was made: lengths in millimetres, angles in degrees, checked. */

interface AnyReading {
  /** Struck through: kept, not counted. */
  readonly struck?: boolean;
  readonly note?: string;
}

/** A size read on a bent bar before its ends are cut; what each means: `BentReading` of trestles. */
export type BentSize = AnyReading &
  (
    | { readonly what: "end-to-end"; readonly size: number }
    | { readonly what: "leg"; readonly end: End; readonly size: number }
    | { readonly what: "across"; readonly legs: readonly [number, number]; readonly size: number }
    | { readonly what: "off-flat"; readonly bend: number; readonly end: End; readonly size: number }
    | { readonly what: "angle"; readonly bend: number; readonly angle: number }
  );

/** A point of the job, or a tube at a station of its centreline (negative: from its B end). */
export type TackSpot = string | { readonly bar: string; readonly along: number };

/** A size read at a tacked bar. */
export type TackSize = AnyReading & { readonly over: Over; readonly size: number } & (
    | { readonly what: "tape"; readonly from: TackSpot; readonly to: TackSpot }
    | { readonly what: "height" | "out" | "fore"; readonly of: TackSpot }
  );

/** Gaps felt round a joint that is pushed home with a first cut. */
export interface FeltGaps {
  /** The cut that was made: degrees off square; turned from the one figured (degrees); its hole farther outboard (mm). */
  readonly cut: number;
  readonly roll: number;
  readonly outboard: number;
  readonly read: readonly (AnyReading & { readonly phi: number; readonly gap: number })[];
}

/** What was read of one bar after it was made. */
export interface Made {
  readonly bent: readonly BentSize[];
  readonly tacked: readonly TackSize[];
  readonly gaps: Partial<Record<End, FeltGaps>>;
  /** Its old card no longer holds: why, and the blank that it said (mm). */
  readonly stale?: { readonly why: string; readonly blank?: number };
}
