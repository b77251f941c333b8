import type { Job, Progress } from "../../core/job/index.ts";
import type { TubeMesh } from "../../core/mesh/index.ts";
import type { Vec } from "../../core/space/index.ts";
import type { Camera, StraightView } from "./camera.ts";
import type { DrawnPlate } from "./plates.ts";
import type { Staging } from "./staging.ts";
import type { ViewTheme } from "./theme.ts";

/** A bar as the viewer draws it. The same mesh object again means that nothing moved. */
export interface ViewBar {
  readonly id: string;
  readonly label: string;
  readonly mesh: TubeMesh;
  /** Shown where it ends: a ring laid out, half filled from the saw on, full once it is tacked. */
  readonly progress: Progress;
  readonly state: "plain" | "attention";
  /** Bars that its ends land on, by ID. */
  readonly hosts: readonly string[];
  /** Its corners, by the numbers that its sentences call them. */
  readonly corners: readonly { readonly n: number; readonly corner: Vec }[];
}

/** A measured point (mm, car axes); `covariance` (mm²) where it is known with an error. */
export interface ViewPoint {
  readonly at: Vec;
  readonly covariance?: readonly [Vec, Vec, Vec];
}

/** What stands around the bars; each part is drawn anew only when it says something else. */
export type ViewExtras = Pick<Job, "body"> & {
  readonly plates: Readonly<Record<string, DrawnPlate>>;
  readonly points: Readonly<Record<string, ViewPoint>>;
  readonly driver?: Job["driver"];
  /** Where bars are wanted that are fast elsewhere: their ends and corners, from end A to end B. */
  readonly wanted?: readonly (readonly Vec[])[];
};

/** Where a tap met a bar. */
export interface ViewTap {
  /** On the bar's centreline (mm, car axes), nearest to the tap. */
  readonly place: Vec;
  /** Station there (mm from the A landing). */
  readonly along: number;
}

/** A plane square to an axis at `at` (mm, car axes); what lies on the side `away` of it is taken away. */
export interface Section {
  readonly axis: "x" | "y" | "z";
  readonly at: number;
  /** Toward greater or lesser values; when absent, the side where the viewer stands as the section is set. */
  readonly away?: "greater" | "lesser";
}

export interface ViewerOptions {
  /** A tap took a bar (its ID and where), or nothing (null, null). */
  readonly onTap: (id: string | null, at: ViewTap | null) => void;
  /** A tap took a point, where this is given: points then come before bars. */
  readonly onPoint?: (id: string) => void;
  readonly theme: ViewTheme;
  /** CSS pixels above and below that something covers: what is fitted is shown between. */
  readonly room?: () => { readonly above: number; readonly below: number };
  /** Lies over the canvas, corner on corner, for names and the rings round points; without it there are none. */
  readonly names?: HTMLElement;
  /** From where the picture is seen, in words, whenever that changes: "seen from the left". `view` when it is straight. */
  readonly onCamera?: (text: string, view: StraightView | undefined) => void;
  /** The graphics context went (false) or came back (true); the picture comes back by itself. */
  readonly onContext?: (alive: boolean) => void;
  /** There will be no picture: the device has no WebGL 2, or the viewer's program could not be had. */
  readonly onFailure?: (error: unknown) => void;
  /** Subtracted from all places before they become 32-bit numbers (mm). Default (0, 0, 0). */
  readonly origin?: Vec;
}

export interface Viewer {
  /** Draws these bars; those whose mesh is the same object keep what was built. The first call fits the view. */
  setBars(bars: readonly ViewBar[]): void;
  setExtras(extras: ViewExtras): void;
  /** The bar in hand: a stronger line in its accent and its centreline through everything; and points in hand. */
  setInHand(id: string | null, points?: readonly string[]): void;
  /** Names of points, of what is known of the body, and of bars: of the one in hand and what it lands on alone where `hasBars` is false; off at first. */
  setNames(isOn: boolean, hasBars?: boolean): void;
  setSection(section: Section | null): void;
  /** A moment of fitting: one bar on its way, others not drawn; null: all bars at their seats. */
  setStaging(staging: Staging | null): void;
  setTheme(theme: ViewTheme): void;
  /** One of the six straight views, or the free three-quarter view; fits what there is. */
  look(view: StraightView | "three-quarter"): void;
  /** The free view from a direction (degrees, as in Camera); fits what there is. */
  lookFrom(direction: Pick<Camera, "az" | "el">): void;
  /** Fits these bars, or all. */
  fit(ids?: readonly string[]): void;
  /** Fits these bars where nothing of them is within the picture; else the picture stays as it is. */
  bring(ids: readonly string[]): void;
  /** Turns the free view by degrees: to the right, up. */
  turn(right: number, up: number): void;
  /** Above 1 comes closer. */
  zoom(factor: number): void;
  /** The bar under a place of the canvas (CSS pixels from its upper left corner), as a tap would take it, but nearer by. */
  barAt(x: number, y: number): string | null;
  /** The bar that a mouse or the focus of the keys points at: stronger edges; null: none. */
  setPointed(id: string | null): void;
  camera(): Camera;
  /**
   * How many pictures were drawn, how long the last one took to issue (ms), whether it is the smooth one of rest, and
   * whether only a part of it was drawn anew.
   */
  drawn(): {
    readonly frames: number;
    readonly ms: number;
    readonly isSmooth: boolean;
    readonly isPart: boolean;
  };
  dispose(): void;
}
