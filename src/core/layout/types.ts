import type { Centreline } from "../bar/types.ts";
import type { Finding } from "../findings/index.ts";
import type { Die, End, Plate, Tube } from "../job/types.ts";
import type { Vec } from "../space/index.ts";

/** What one end of a resolved bar meets. */
export type Seat =
  /** A plain end, cut square. */
  | { readonly kind: "square" }
  /** Cut flat on a plate, which stands as here (a mirrored bar's is its original's, mirrored). */
  | ({ readonly kind: "plate"; readonly plate: string } & Plate)
  /** Coped to one or several bars; the first is the one it lands on. */
  | {
      readonly kind: "on";
      /** IDs, the host first, then those of `also`. */
      readonly hosts: readonly string[];
      /** Station on the host where it lands (mm), before `off`. */
      readonly along: number;
      readonly off: Vec;
    };

/** A bar with its place in the car. Identity is kept as long as nothing that it depends on changed. */
export interface ResolvedBar {
  readonly id: string;
  readonly label: string;
  readonly tubeId: string;
  readonly tube: Tube;
  readonly dieId?: string;
  readonly die?: Die;
  readonly centreline: Centreline;
  readonly seat: Readonly<Record<End, Seat>>;
  /** Extra length left at each end (mm): the bar's own, else the shop's. */
  readonly trim: Readonly<Record<End, number>>;
  readonly fromEnd: End;
  readonly mirrorOf?: string;
  /** What the bar's place was computed from, by ID (hosts, followed bar, original of a mirror). */
  readonly dependsOn: readonly string[];
}

/** Outcome of laying out one bar: its geometry, or the errors why it has none; warnings may stand beside either. */
export interface LaidOut {
  readonly id: string;
  readonly bar?: ResolvedBar;
  readonly findings: readonly Finding[];
  /** What it was laid out from: while this is the same, so is the result. */
  readonly basis?: { readonly text: string; readonly hosts: readonly (ResolvedBar | undefined)[] };
}

export interface Layout {
  /** In the job's order. */
  readonly bars: readonly LaidOut[];
  readonly byId: ReadonlyMap<string, ResolvedBar>;
  /** IDs so that whatever a bar depends on comes before it. */
  readonly order: readonly string[];
  /** The same as wanted, where some bars are known as they were built; absent where none is. */
  readonly wanted?: Layout;
}
