/**
 * The job as the program computes with it: every length a number in millimetres, every angle in degrees, checked.
 * The document that a person keeps (lengths as typed, unit and all) is `unknown` JSON until `readJob` has read it.
 */

import type { PathNode, Place } from "./kinds/nodes.ts";
import type { Made } from "./made-types.ts";
import type { End, Reading } from "./reading-types.ts";

export type {
  AlongWhere,
  AtNode,
  LandingNode,
  LandingWhere,
  NodeKind,
  PathNode,
  Place,
  PlaceNode,
  PlaneWhere,
  PlateNode,
  PointNode,
  Side,
  StepNode,
  TowardWhere,
} from "./kinds/nodes.ts";
export { NOWHERE } from "./kinds/nodes.ts";
export type { End };

export interface Tube {
  readonly od: number;
  readonly wall: number;
  readonly material?: string;
  /** Length of a stick as bought. */
  readonly stick?: number;
}

export interface DieTest {
  readonly set: number;
  readonly got: number;
  /** Outside legs: square-sawn end to where the outer lines of both legs meet, A and B. */
  readonly legs?: readonly [number, number];
  readonly stick?: number;
}

export interface Die {
  readonly od: number;
  readonly clr: number;
  readonly clamp?: number;
  readonly between?: number;
  readonly tail?: number;
  readonly maxAngle?: number;
  readonly mark: number;
  readonly arcFactor: number;
  /** got = k·set + c (degrees). */
  readonly springback?: { readonly k: number; readonly c: number };
  readonly tests: readonly DieTest[];
}

export interface Plate {
  readonly at: Place;
  /** Points to the bar's side; length 1. */
  readonly normal: Place;
  readonly thickness?: number;
  readonly size?: readonly [number, number];
  /** The way its first size runs: square to the normal, length 1. Without it the plate is a disc. */
  readonly along?: Place;
}

export interface Follow {
  readonly bar: string;
  readonly gap: number;
  readonly side: "inside" | "outside" | Place;
  readonly from?: number;
  readonly to?: number;
}

/** What an end's notch angle is believed to be before it is tried: one first angle, or from-to (degrees off square). */
export type Believed = number | readonly [number, number];

/**
 * What must hold while a bar goes in: the body (roof and all) is there to set it by, or the roof is off.
 */
export const NEEDS = ["body on", "roof off"] as const;
export type Needs = (typeof NEEDS)[number];

/** How far a bar has come in the shop, in the order in which it gets there. */
export const PROGRESS = ["laid out", "sawn", "bent", "notched", "fitted", "tacked", "welded"] as const;
export type Progress = (typeof PROGRESS)[number];

/** Whether a bar that has come so far has that step behind it. */
export const hasReached = (progress: Progress, step: Progress): boolean =>
  PROGRESS.indexOf(progress) >= PROGRESS.indexOf(step);

/** Whether a bar that has come so far stays where it is in the car, whatever the plan says, until it is cut loose. */
export const stands = (progress: Progress | undefined): boolean =>
  progress !== undefined && hasReached(progress, "fitted");

/** A bar that is described by its path. */
export interface PathBar {
  readonly kind: "path";
  readonly label: string;
  readonly tube: string;
  readonly die?: string;
  readonly path: readonly PathNode[];
  readonly follow?: Follow;
  readonly trim: Partial<Record<End, number>>;
  readonly fromEnd: End;
  readonly believed?: Partial<Record<End, Believed>>;
  /** Absent: laid out. Each bar of a pair is made by itself, so a mirrored bar has its own. */
  readonly progress?: Progress;
  readonly needs?: Needs;
}

/** A bar that is another's mirror image about y = 0. */
export interface MirrorBar {
  readonly kind: "mirror";
  readonly label: string;
  readonly mirrorOf: string;
  readonly trim?: Partial<Record<End, number>>;
  readonly fromEnd?: End;
  readonly believed?: Partial<Record<End, Believed>>;
  /** Absent: laid out. Each bar of a pair is made by itself, so a mirrored bar has its own. */
  readonly progress?: Progress;
  readonly needs?: Needs;
}

export type JobBar = PathBar | MirrorBar;

/** A measured point: exact (sd 0), unknown (at absent), or known with an error. */
export interface JobPoint {
  readonly at?: Place;
  readonly sd: Place;
}

export interface ShopErrors {
  /** One standard deviation each: mm, degrees, degrees, mm, degrees. */
  readonly mark: number;
  readonly angle: number;
  readonly turn: number;
  readonly tape: number;
  readonly slope: number;
  /** A height, and a measure out from the centre plane or forward (mm). */
  readonly height: number;
  /** Two points called level, two called plumb (mm). */
  readonly level: number;
  readonly plumb: number;
}

/** A bar as it was built. */
export interface AsBuilt {
  readonly path: readonly Place[];
  /** Tube beyond the long point at each end (mm), while the ends are still as sawn: it takes the place of the trim. */
  readonly over?: Partial<Record<End, number>>;
}

export interface Panel {
  /** Its edge in order, closed. */
  readonly edge: readonly Place[];
  /** Names of the openings that are cut out of it. */
  readonly openings: readonly string[];
}

/** The card of a bar that was issued last: printed, or its first step started. */
export interface IssuedCard {
  /** Counts up from 1: one more for each issue with a figure changed. */
  readonly n: number;
  /** Digest of the figures on it, in hexadecimal. */
  readonly code: string;
  /** The day of issue, as YYYY-MM-DD. */
  readonly on: string;
}

/**
 * What is seen to before a car is measured, in this order: what weighs or hides is taken out, then the shell is supported
 * under its own suspension points and levelled, so that it does not hang otherwise than on the road. Common practice, no source.
 */
export const SET_UP = ["battery", "tank", "seats", "interior", "glass", "supports", "level"] as const;
export type SetUpStep = (typeof SET_UP)[number];

/** A gap round a door or a lid, read before the car was stripped or after it was supported. */
export interface DoorGap {
  readonly at: string;
  readonly when: "before" | "after";
  /** As read (mm). */
  readonly gap: number;
  readonly struck?: boolean;
  readonly note?: string;
}

/** What a job keeps of its bars beside `bars`, by the bar's ID: it goes where the bar goes. */
export const BESIDE_BARS = ["asBuilt", "made", "cards"] as const;

export interface Job {
  readonly format: "tubewright job";
  readonly version: 2;
  readonly name: string;
  /** `fraction`: inches are shown in 1/fraction; 1000 shows decimals. */
  readonly show: { readonly length: "mm" | "in"; readonly fraction: number };
  readonly tubes: Readonly<Record<string, Tube>>;
  readonly dies: Readonly<Record<string, Die>>;
  readonly plates: Readonly<Record<string, Plate>>;
  readonly points: Readonly<Record<string, JobPoint>>;
  readonly bars: Readonly<Record<string, JobBar>>;
  /** How the car was made ready; absent where nothing is said of it. */
  readonly setUp?: { readonly done: readonly SetUpStep[]; readonly doorGaps: readonly DoorGap[] };
  readonly readings: readonly Reading[];
  readonly bender: { readonly height?: number; readonly turnSide: "left" | "right" };
  readonly notcher: {
    /** Diameters of the hole saws at hand; empty where the shop has not said. */
    readonly saws: readonly number[];
    readonly steepest?: number;
    /** Gap (mm) beyond which the card says to use the wrap; where absent, `shop.gap`. `readJob` always fills it in. */
    readonly wrapBeyond?: number;
  };
  readonly shop: {
    readonly gap: number;
    /** Extra left at each end where a bar does not say. */
    readonly trim: number;
    readonly kerf: number;
    readonly errors: ShopErrors;
    /** The part of a torch that must get to a joint: greatest diameter, and length from the nozzle's tip (mm). */
    readonly torch?: { readonly od: number; readonly length: number };
  };
  /** Bars as they stand in the car, by ID: places of the centreline's ends and corners, from A to B. */
  readonly asBuilt?: Readonly<Record<string, AsBuilt>>;
  /** What was read of bars after they were made, by ID. */
  readonly made?: Readonly<Record<string, Made>>;
  /** The cards issued last, by the bar's ID. */
  readonly cards?: Readonly<Record<string, IssuedCard>>;
  /** Figures that are the program's examples, by the thing that has them; absent where the shop has set or confirmed all. */
  readonly examples?: {
    readonly tubes: Readonly<Record<string, readonly string[]>>;
    readonly dies: Readonly<Record<string, readonly string[]>>;
    readonly plates: Readonly<Record<string, readonly string[]>>;
    readonly shop: readonly string[];
  };
  /** The order in which the user means to put the bars in; bars that it leaves out come after. */
  readonly order?: readonly string[];
  readonly rack: readonly { readonly tube: string; readonly pieces: readonly number[] }[];
  readonly body: {
    readonly lines: Readonly<Record<string, readonly Place[]>>;
    readonly skin: Readonly<Record<string, readonly Place[]>>;
    /** Door, hatch and screen openings: their edge in order, closed. */
    readonly openings?: Readonly<Record<string, readonly Place[]>>;
    /** Sheets that block, less the openings in them. */
    readonly panels?: Readonly<Record<string, Panel>>;
    /** Names of lines, skin, openings and panels that come off with the roof. */
    readonly roof?: readonly string[];
  };
  readonly driver?: {
    readonly hip?: Place;
    readonly shoulder?: Place;
    readonly torsoRadius?: number;
    readonly helmet?: Place;
    readonly helmetRadius?: number;
  };
}
