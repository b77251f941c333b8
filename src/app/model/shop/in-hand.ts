import type { Json, Present, Rights } from "../../../shared/index.ts";
import type { ShopDevice, ShopJob, ShopNotice } from "./ask.ts";
import type { LineState } from "./line.ts";
import type { Shared } from "./share.ts";

/** A change of this device that gave way to another's, as it is shown. */
export interface ShownGaveWay {
  readonly id: number;
  readonly path: readonly string[];
  readonly by: string;
  readonly mine: Json | undefined;
  readonly theirs: Json | undefined;
}

/** The shop has all of it, or not its last changes, or nothing. */
export type Whereabouts = "kept" | "unsent" | "here";

/** What the page knows of the shop that this device is part of. */
export interface ShopInHand {
  readonly line: LineState;
  /** What this device is called in the shop; not known before the first connection. */
  readonly device?: string;
  readonly rights: Rights;
  /** Of the job in hand. */
  readonly job?: Shared;
  readonly present: readonly Present[];
  readonly gave: readonly ShownGaveWay[];
  /** The shop's jobs, deleted ones too. */
  readonly jobs: readonly ShopJob[];
  readonly devices: readonly ShopDevice[];
  readonly notices: readonly ShopNotice[];
  /** Where each job of this device is, by its ID. */
  readonly where: Readonly<Record<string, Whereabouts>>;
  /** Opens a job of the shop that is not on this device yet; false where it could not. */
  readonly fetch: (id: string) => Promise<boolean>;
  /** Jobs that came along from the page of the shop's former address, and wait for a yes. */
  readonly carried?: readonly { readonly id: string; readonly name: string }[];
  /** Takes them in, or not; answers with those that the shop did not take. */
  readonly takeCarried: (yes: boolean) => Promise<readonly string[]>;
  /** Goes to the shop's new address, with all that it does not have yet; false where it is no address. */
  readonly goToAddress: (typed: string) => Promise<boolean>;
}
