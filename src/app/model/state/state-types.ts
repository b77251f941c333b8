import type * as Y from "yjs";
import type { StoreApi } from "zustand/vanilla";
import type { AnyVersionRead, Progress } from "../../../core/job/index.ts";
import type { Mark, NotchMethod } from "../../../core/plan/index.ts";
import type { Computer, MadeChange, Results } from "../compute/index.ts";
import type { Command, Did, JobDocument, Outcome, Refusal } from "../document/index.ts";
import type { ShopInHand } from "../shop/index.ts";
import type { Damaged, JobEntry, JobStore, Kept } from "../storage/index.ts";
import type { Moves } from "./moved.ts";

/** Where in the shop the user stands. A station is listed when it works. */
export const STATIONS = ["wall", "car", "bender", "trestles", "notcher"] as const;
export type Station = (typeof STATIONS)[number];

/** The job in hand, always whole. */
export interface JobInHand {
  readonly entry: JobEntry;
  /** As typed; parts that did not change are the same objects as before. */
  readonly document: JobDocument;
  /** The job in it. Not ok: two windows' edits do not go together; show the lines, and let the text be saved. */
  readonly read: AnyVersionRead;
  /** Whether the last change is on the device. */
  readonly kept: Kept;
  /** Names of the steps that undo and redo would take. */
  readonly undo?: string;
  readonly redo?: string;
  /** What made it as it is now. */
  readonly did: Did;
}

/** A file that could not be opened: why, and its text, which can be saved again. */
export interface Unreadable {
  readonly name: string;
  readonly lines: readonly string[];
  readonly text: string;
}

/** What this device or browser cannot do, until it is put away. */
export interface Caution {
  readonly key: string;
  readonly text: string;
}

/** What an edit that waits does to what is made, with the bars that are fast in the car left there or cut loose. */
export interface AskedChange {
  readonly name: string;
  readonly stay: MadeChange;
  /** Bars fast in the car that would move, were they cut loose. */
  readonly fast: readonly string[];
  /** Figured while it is asked. */
  readonly loose?: MadeChange;
}

/** The edit is done with what is fast left where it is, or cut loose and moved, or not done. */
export type ChangeAnswer = "stay" | "loose" | "cancel";

/** What the last change did to what is made; without a name where it touched nothing. */
export interface KeptChange extends MadeChange {
  readonly name?: string;
  /** What the bars were called, by ID: those that are gone are in no job any more. */
  readonly labels: Readonly<Record<string, string>>;
}

export const NO_CHANGE: KeptChange = { bars: [], gone: [], lost: [], labels: {} };

/** A sheet of what the job holds beside its bars: a topic, and which of its sheets; or the readings in the car. */
export interface Question {
  readonly topic: "tube" | "die" | "plate" | "point" | "shop" | "driver" | "body" | "rack" | "car";
  readonly key?: string;
}

/** What the app knows. Everything shown is in here or follows from it. */
export interface AppState {
  /** All jobs of this device, newest change first. */
  readonly jobs: readonly JobEntry[];
  readonly job?: JobInHand;
  readonly unreadable?: Unreadable;
  /** A job of this device that could not be opened whole. */
  readonly damaged?: Damaged;
  /** Why `jobs` is not what the device has. */
  readonly notListed?: string;
  /** Why nothing that is done in this page outlives it. */
  readonly passing?: string;
  readonly cautions: readonly Caution[];
  /** What is waited for, while the app starts. */
  readonly starting?: string;
  /** Of the job in hand; `results.document` says of which moment. */
  readonly results: Results;
  /** What the last edit moved. */
  readonly moves: Moves;
  /** A change that waits for an answer, since it touches what is made. */
  readonly asked?: AskedChange;
  /** What the last change did to what is made. */
  readonly changed: KeptChange;
  /** The bar of which it is asked whether it is to be made again. */
  readonly again?: string;
  /** The sheet that is asked over the page, where a finding or a step led to it. */
  readonly question?: Question;
  /** The bar in hand; nothing else is ever in hand. */
  readonly inHand: string | null;
  /** Bars marked for a print or a step, each once, in the order of marking; of this page, never in the job. */
  readonly marked: readonly string[];
  readonly station: Station;
  /** Whether the picture shows names, where it does so only when asked to. */
  readonly names: boolean;
  /** How lengths are shown: the job's own way, millimetres without a job. */
  readonly show: { readonly length: "mm" | "in"; readonly fraction: number };
  /** Why the last command was not done, until the next one or `dismiss`. */
  readonly refusal?: Refusal & { readonly name: string };
  /** Steps done at the stations of this device, by whatever key the station gives ("bender main-hoop"). */
  readonly steps: Readonly<Record<string, number>>;
  /** The shop's own tubes, dies and figures that this device keeps for new jobs: a job without bars. */
  readonly ownShop?: JobDocument;
  /** The shop that this device is part of, where it is. */
  readonly shop?: ShopInHand;
  /** A newer version of the app is on the device and starts with `restart`. */
  readonly newVersion: boolean;
}

export interface AppActions {
  /** Opens what was open last, else the newest job, else what `first` brings, a file or a job that it opens itself. */
  readonly start: (
    first: () => Promise<{ readonly name: string; readonly text: string } | undefined>,
  ) => Promise<void>;
  /** Reads the list of this device's jobs anew. */
  readonly list: () => Promise<void>;
  /**
   * Does a command; a refusal is also kept in `refusal`. Commands of one `gesture` are one step of undo. One that may
   * touch what is made is done when it has been judged, and answered where it does (`asked`).
   */
  readonly run: (command: Command, gesture?: string) => Outcome;
  /**
   * Marks a step done, of the bar or the notch of one end, with what it was made to. A bar that has come further stays
   * there. `by`: how an end was notched, where that is not what its card says.
   */
  readonly markStep: (bar: string, mark: Mark, by?: NotchMethod) => void;
  /** Takes a bar back to a step: the later ones were not done after all. */
  readonly stepBack: (bar: string, to: Progress) => void;
  /** Asks whether a bar is to be made again; `answerAgain` answers. */
  readonly makeAgain: (bar: string) => void;
  readonly answerAgain: (yes: boolean) => void;
  /** Answers the change that waits. */
  readonly answerChange: (how: ChangeAnswer) => void;
  readonly undo: () => Outcome;
  readonly redo: () => Outcome;
  /** Takes a bar out; what stands on it is deleted too, or left standing where it is computed to be. */
  readonly deleteBar: (id: string, others?: "keep" | "delete" | "leave") => Outcome;
  readonly take: (bar: string | null) => void;
  /** Marks bars, or takes the mark off them. What is no bar of the job is passed over. */
  readonly mark: (bars: readonly string[], isOn: boolean) => void;
  /** Opens a sheet of the job over the page, or closes it. */
  readonly ask: (question: Question | undefined) => void;
  readonly goTo: (station: Station) => void;
  readonly showNames: (names: boolean) => void;
  readonly setStep: (key: string, step: number) => void;
  /** True where it is in hand now; where not, `damaged` or a caution says why. */
  readonly openJob: (id: string) => Promise<boolean>;
  /** Keeps a job of the shop on this device too, and opens it. */
  readonly adopt: (id: string, doc: Y.Doc) => Promise<boolean>;
  /** Opens what can be read of the damaged job, as a new job; its record stays as it is. */
  readonly openRest: () => Promise<void>;
  /** Takes a job file in and opens it. `again`: a copy of the very same file that is here already is opened instead. */
  readonly openFile: (name: string, file: string | Uint8Array, again?: "again") => Promise<void>;
  /** Keeps these tubes, dies and figures as the shop's own, in place of those kept before; undefined: none. */
  readonly keepShop: (shop: JobDocument | undefined) => void;
  readonly newJob: (document: JobDocument) => Promise<void>;
  readonly deleteJob: (id: string) => Promise<void>;
  readonly dismiss: () => void;
  /** Says something about this device, in place of what was said under that key; nothing takes it back. */
  readonly caution: (key: string, text?: string) => void;
  /** What the start waits for; nothing once it is over. */
  readonly starting: (step?: string) => void;
  readonly offerRestart: (restart: () => void) => void;
  /** Commits what waits, then starts the newer version. */
  readonly restart: () => Promise<void>;
  /** Lets go of the job, committing what waits. */
  readonly close: () => Promise<void>;
}

/** What the state is tied to; in tests all of it is in memory. */
export interface AppPorts {
  readonly store: JobStore;
  readonly computer: Computer;
  /** Keeps a document in step with other windows; returns how to leave. */
  readonly join: (doc: Y.Doc, job: string) => () => void;
  /**
   * Runs something in a task of its own: what is computed is drawn in the picture first, and the page's words, which
   * take as long again, follow. Without it they are told at once.
   */
  readonly later?: (tell: () => void) => void;
  /** Whether a job is a demo: its shop is nobody's. */
  readonly isDemo?: (entry: JobEntry) => boolean;
}

export interface App {
  readonly state: StoreApi<AppState>;
  readonly do: AppActions;
  readonly computer: Computer;
  /** What a room keeps for as long as the app is there, by what makes it: made when first asked for, once. */
  readonly own: <T>(make: (app: App) => T) => T;
}
