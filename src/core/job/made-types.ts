import type { End, Over } from "./reading-types.ts";
import type { AsBuilt, Place, Plate, Progress, Tube } from "./types.ts";

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
    | {
        readonly what: "tape";
        readonly from: TackSpot;
        readonly to: TackSpot;
        /** What of the tape was held at its first end; absent: the hook, 0. */
        readonly mark?: number;
      }
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

interface OfCard {
  /** Number of the card that it was made to. */
  readonly card?: number;
}

export interface SawnTo extends OfCard {
  readonly tube: Pick<Tube, "od" | "wall" | "material">;
  readonly length: number;
}

export interface BentTo extends OfCard {
  /** As the die was known at that time; `id` finds what is known of it now. */
  readonly die: {
    readonly id?: string;
    readonly od: number;
    readonly clr: number;
    readonly mark: number;
    readonly arcFactor: number;
    readonly springback?: { readonly k: number; readonly c: number };
  };
  readonly fed: End;
  readonly zero: string;
  /** From end A on; marks from the end fed first. `set` is absent where the die had no springback to set by. */
  readonly bends: readonly {
    readonly n: number;
    readonly mark: number;
    readonly angle: number;
    readonly set?: number;
    readonly turn: number;
  }[];
}

/** One cut of a hole saw, as `SawCut` of cope, the saw by its diameter. */
export interface CutTo {
  readonly diameter: number;
  readonly angle: number;
  readonly clock: number;
  readonly centre: number;
  readonly offset: number;
}

type PlateTo = Pick<Plate, "at" | "normal" | "size" | "along">;

/** What an end of a host is cut to: bars of the same list, or a plate. */
type HostEnd = { readonly on: readonly number[] } | { readonly plate: PlateTo };

/** A bar that an end was cut to, from A to B, and what its own ends are cut to. */
export interface CutHost {
  readonly od: number;
  readonly clr?: number;
  readonly path: readonly Place[];
  readonly A?: HostEnd;
  readonly B?: HostEnd;
}

/** How an end was cut; the curve of a wrap is what its bars give. */
export type CutBy =
  | { readonly by: "hole saw"; readonly cuts: readonly CutTo[] }
  /** The first `on` of the bars are what it was cut to. */
  | { readonly by: "wrap"; readonly on: number; readonly bars: readonly CutHost[] }
  /** Flat, on a plate or square. */
  | { readonly by: "saw"; readonly plate?: PlateTo };

/** What one end was notched to: its cut, and where that was to be (car axes). */
export type NotchedTo = OfCard &
  CutBy & {
    readonly landing: Place;
    readonly out: Place;
    readonly zero: Place;
    /** Tube from the landing to the sawn end; negative: it ends before the landing. */
    readonly over: number;
    /** Net length that both notches were to give. */
    readonly finished: number;
  };

export interface StoodAt extends OfCard {
  readonly path: readonly Place[];
}

/** What a bar was made to, by the step that kept it. */
export interface MadeTo {
  readonly sawn?: SawnTo;
  readonly bent?: BentTo;
  readonly notched?: Partial<Record<End, NotchedTo>>;
  readonly fitted?: StoodAt;
  readonly tacked?: StoodAt;
}

/** What was made and read of one bar. */
interface Known {
  readonly to?: MadeTo;
  readonly bent: readonly BentSize[];
  readonly tacked: readonly TackSize[];
  readonly gaps: Partial<Record<End, FeltGaps>>;
}

/** A bar that was thrown away: how far it had come, what it was made to and what was read of it. */
export interface Thrown extends Known {
  readonly progress?: Progress;
  readonly asBuilt?: AsBuilt;
}

/** What one bar was made to, and what was read of it after. */
export interface Made extends Known {
  /** Those made before it and thrown away, the oldest first. */
  readonly past: readonly Thrown[];
}
