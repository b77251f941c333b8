import type { CardOptions, OrderFound, PrintAsk, Unprinted } from "../../../cards/index.ts";
import type { BendPlan, ChecksAfter, DieCard, OwnEnds, Points, Turn } from "../../../core/bend/index.ts";
import type { Cope, Notch } from "../../../core/cope/index.ts";
import type { Finding } from "../../../core/findings/index.ts";
import type { End, Job, JobProblem, Progress } from "../../../core/job/index.ts";
import type { ResolvedBar } from "../../../core/layout/types.ts";
import type { TubeMesh } from "../../../core/mesh/index.ts";
import type { PlacedPoint } from "../../../core/plan/index.ts";
import type { Document } from "../../../draw/index.ts";
import type { JobDocument } from "../document/index.ts";
import type { AnswerOf, AskKind, AskOf } from "./answers/index.ts";

/**
 * What passes between the page and the worker that computes. All of it is plain data: lengths mm in car axes, angles
 * radians (φ of copes in degrees), findings as data, put in words by `say` where they are shown.
 */

/** Everything computed of one bar, and what is drawn of it. The same object as before where nothing of it changed. */
export interface BarResult {
  readonly id: string;
  readonly label: string;
  readonly progress: Progress;
  /** Centreline (straights and bends), tube, die, what each end meets, trim, what it hangs on. */
  readonly bar: ResolvedBar;
  /** Each end's curve: frame (landing, out, zero), back every 1° at the outside and the bore, long point. */
  readonly copes: Readonly<Record<End, Cope>>;
  readonly leastBack: Readonly<Record<End, number>>;
  /** Blank length, marks, angles to set. */
  readonly bend: BendPlan;
  /** In order of bending. */
  readonly turns: readonly Turn[];
  readonly checks: readonly ChecksAfter[];
  /** For a bar of two bends: both marks when each end is fed in its turn, and where the first bend must then point. */
  readonly ownEnds?: OwnEnds & { readonly points: Points };
  readonly mesh: TubeMesh;
  /** Of the bar's place, its ends and its bends; the notches' come with the notches. */
  readonly findings: readonly Finding[];
}

/** A bar that has no geometry, and why. */
export interface BarWithout {
  readonly id: string;
  readonly label: string;
  readonly findings: readonly Finding[];
}

/** Page to worker. Revisions count up; an answer names the one that it is for. */
export interface ComputeRequest {
  readonly revision: number;
  /** As read by the page: the schema stays there, where every edit is asked of it anyway. */
  readonly job: Job;
}

/** Worker to page: only what differs from the answer before. */
export type ComputeAnswer =
  | { readonly ok: false; readonly revision: number; readonly problems: readonly JobProblem[] }
  | {
      readonly ok: true;
      readonly revision: number;
      /** IDs of all bars that have a geometry, in the job's order. */
      readonly order: readonly string[];
      readonly changed: readonly BarResult[];
      readonly without: readonly BarWithout[];
      /** Ends that are coped to each other. */
      readonly mutual: readonly Finding[];
      readonly dies: readonly (readonly [id: string, card: DieCard])[];
      /** Where the job's points stand, by ID; absent where none of it is another than before. */
      readonly points?: Results["points"];
      /** How long it took to compute (ms). */
      readonly took: number;
    };

/** One end's notch, when asked for. Believed: degrees off square, or a range. */
export interface NotchRequest {
  readonly bar: string;
  readonly end: End;
  readonly believed?: number | readonly [number, number];
}

/** A card of the bar in hand, or the overview of the job. */
export interface CardRequest {
  readonly card:
    | "bender"
    | "notcher"
    | "wrap"
    | "marks"
    | "overview"
    | "order"
    | "readings"
    | "measuring"
    | "die"
    | "print";
  readonly paper: CardOptions["paper"];
  /** Not for the overview and the reading list; with it, a measuring plan is of that bar on the trestles. */
  readonly bar?: string;
  /** For the card of a die. */
  readonly die?: string;
  /** For the wrap. */
  readonly end?: End;
  /** For a print: what is in it. */
  readonly print?: Omit<PrintAsk, "paper" | "document">;
  /** For the order of fitting: what was found of it. */
  readonly found?: OrderFound;
  /** The job as typed, for the reading list, which prints every reading as it was read; the computer gives it. */
  readonly document?: JobDocument;
}

/** A page of a print as it will be, small: its picture is an SVG in millimetres. */
export interface SeenPage {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly isTrueSize: boolean;
  readonly svg: string;
}

/** A print before it is printed: every page, and what is not in it. */
export interface SeenPrint {
  readonly pages: readonly SeenPage[];
  readonly without: readonly Unprinted[];
  readonly findings: readonly Finding[];
}

/**
 * What computes, in a worker or in the page. Calls are answered in order; `compute` may answer at once (in the page).
 * `notch`, `card` and `pdf` are of the last job that passed; undefined where there is no such thing.
 */
export interface Engine {
  compute(request: ComputeRequest): ComputeAnswer | Promise<ComputeAnswer>;
  notch(request: NotchRequest): Notch | undefined | Promise<Notch | undefined>;
  /** The card as sheets in millimetres, to be shown with a sink of `draw`. */
  card(request: CardRequest): Promise<Document | undefined>;
  /** The pages of a print; undefined where another was asked for meanwhile, which ends this one. */
  preview(request: CardRequest): Promise<SeenPrint | undefined>;
  /** The card as a PDF file, true to size. */
  pdf(request: CardRequest): Promise<Uint8Array | undefined>;
  /** Anything else that is asked of the last job that passed (answers/, a file a kind); undefined before the first. */
  ask<K extends AskKind>(kind: K, about: AskOf<K>): Promise<Told<K> | undefined>;
  close(): void;
}

/** An answer beside the plan, and how long it took (ms). */
export interface Told<K extends AskKind> {
  readonly answer: AnswerOf<K>;
  readonly took: number;
}

/** What the page shows: the answers so far put together. A new object after every answer. */
export interface Results {
  /** The document that this is of; undefined before the first answer. */
  readonly document?: JobDocument;
  /** In the job's order. */
  readonly bars: ReadonlyMap<string, BarResult>;
  readonly without: readonly BarWithout[];
  readonly mutual: readonly Finding[];
  readonly dies: ReadonlyMap<string, DieCard>;
  /** The job's points by ID, where their readings put them; without those that have no place. */
  readonly points: Readonly<Record<string, PlacedPoint>>;
  /** What keeps the document in hand from being a job; the bars are then those of the last one that passed. */
  readonly problems: readonly JobProblem[];
  /** IDs of the bars that the last answer brought anew or took away: what moved. */
  readonly moved: readonly string[];
  /** Whether a newer document is being computed. */
  readonly computing: boolean;
  readonly took: number;
}
