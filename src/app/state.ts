import type * as Y from "yjs";
import { createStore, type StoreApi } from "zustand/vanilla";
import { type JobProblem, type JobRead, problemLine, upgraded } from "../core/job/index.ts";
import { type Computer, type Results, standsIn } from "./compute/index.ts";
import {
  at,
  type Command,
  deleteBar,
  type Editor,
  editorOf,
  isObject,
  type JobDocument,
  type Json,
  type Outcome,
  type Refusal,
  thingsOf,
  toJson,
  write,
} from "./document/index.ts";
import {
  digestOf,
  type JobEntry,
  type JobStore,
  type Kept,
  type KeptJob,
  readFile,
} from "./storage/index.ts";

/** Where in the shop the user stands. A station is listed when it works. */
export const STATIONS = ["wall", "car", "bender", "trestles", "notcher"] as const;
export type Station = (typeof STATIONS)[number];

/** The job in hand, always whole. */
export interface JobInHand {
  readonly entry: JobEntry;
  /** As typed; parts that did not change are the same objects as before. */
  readonly document: JobDocument;
  /** The job in it. Not ok: two windows' edits do not go together; show the lines, and let the text be saved. */
  readonly read: JobRead;
  /** Whether the last change is on the device. */
  readonly kept: Kept;
  /** Names of the steps that undo and redo would take. */
  readonly undo?: string;
  readonly redo?: string;
}

/** A file that could not be opened: why, and its text, which can be saved again. */
export interface Unreadable {
  readonly name: string;
  readonly lines: readonly string[];
  readonly text: string;
}

/** What the app knows. Everything shown is in here or follows from it. */
export interface AppState {
  /** All jobs of this device, newest change first. */
  readonly jobs: readonly JobEntry[];
  readonly job?: JobInHand;
  readonly unreadable?: Unreadable;
  /** Of the job in hand; `results.document` says of which moment, `results.moved` what the last edit moved. */
  readonly results: Results;
  /** The bar in hand; nothing else is ever selected. */
  readonly inHand: string | null;
  readonly station: Station;
  /** How lengths are shown: the job's own way, millimetres without a job. */
  readonly show: { readonly length: "mm" | "in"; readonly fraction: number };
  /** Why the last command was not done, until the next one or `dismiss`. */
  readonly refusal?: Refusal & { readonly name: string };
  /** Steps done at the stations of this device, by whatever key the station gives ("bender main-hoop"). */
  readonly steps: Readonly<Record<string, number>>;
  /** A newer version of the app is on the device and starts with `restart`. */
  readonly newVersion: boolean;
}

export interface AppActions {
  /** Opens what was open last, else the newest job, else the demo. */
  readonly start: (demo: () => Promise<{ readonly name: string; readonly text: string }>) => Promise<void>;
  /** Does a command; a refusal is also kept in `refusal`. Commands of one `gesture` are one step of undo. */
  readonly run: (command: Command, gesture?: string) => Outcome;
  readonly undo: () => Outcome;
  readonly redo: () => Outcome;
  /** Takes a bar out; what stands on it is deleted too, or left standing where it is computed to be. */
  readonly deleteBar: (id: string, others?: "keep" | "delete" | "leave") => Outcome;
  readonly take: (bar: string | null) => void;
  readonly goTo: (station: Station) => void;
  readonly setStep: (key: string, step: number) => void;
  readonly openJob: (id: string) => Promise<void>;
  /** Takes a job file in and opens it. `again`: a copy of the very same file that is here already is opened instead. */
  readonly openFile: (name: string, file: string | Uint8Array, again?: "again") => Promise<void>;
  readonly newJob: (document: JobDocument) => Promise<void>;
  readonly deleteJob: (id: string) => Promise<void>;
  readonly dismiss: () => void;
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
}

export interface App {
  readonly state: StoreApi<AppState>;
  readonly do: AppActions;
  readonly computer: Computer;
}

const PLAIN = { length: "mm", fraction: 16 } as const;

interface Held {
  readonly editor: Editor;
  readonly kept: KeptJob;
  readonly leave: () => void;
}

export function appWith({ store, computer, join }: AppPorts): App {
  const state = createStore<AppState>(() => ({
    jobs: [],
    results: computer.results(),
    inHand: null,
    station: "wall",
    show: PLAIN,
    steps: {},
    newVersion: false,
  }));
  const set = state.setState;
  let held: Held | undefined;
  let turn = 0;
  let onRestart = (): void => {};
  computer.subscribe(() => set({ results: computer.results() }));

  function shown({ editor, kept }: Held): void {
    const { document, read, undo, redo } = editor.state();
    const steps = { ...(undo === undefined ? {} : { undo }), ...(redo === undefined ? {} : { redo }) };
    const job: JobInHand = { entry: kept.entry, document, read, kept: kept.kept(), ...steps };
    const { inHand, job: before } = state.getState();
    const stays = inHand !== null && Object.hasOwn(thingsOf(document, "bar"), inHand);
    set({ job, inHand: stays ? inHand : null, ...(read.ok ? { show: read.job.show } : {}) });
    if (before?.document !== document) computer.compute(document, read);
  }

  /** Puts another job, or none, in the place of the one held, and commits what that one still had waiting. */
  async function swap(next: Held | undefined): Promise<void> {
    const was = held;
    held = next;
    was?.leave();
    was?.editor.close();
    await was?.kept.close();
  }

  /** Holds a job that is open and whole; gives it back at once where another was asked for meanwhile. */
  async function hold(opening: () => Promise<KeptJob | undefined>): Promise<void> {
    const mine = ++turn;
    // the one to open may be the one in hand: its last change must be there to be read
    await held?.kept.settled();
    const kept = await opening();
    const last = kept && (await store.recall(`steps ${kept.entry.id}`));
    if (!kept || mine !== turn) {
      await kept?.close();
      return list();
    }
    bringUp(kept.doc);
    const editor = editorOf(kept.doc);
    const next: Held = { editor, kept, leave: join(kept.doc, kept.entry.id) };
    const letGo = swap(next);
    const tell = (): void => {
      if (held === next) shown(next);
    };
    editor.subscribe(tell);
    kept.subscribe(tell);
    forget("unreadable", "refusal", "job");
    set({ inHand: null, steps: isObject(last) ? (last as Record<string, number>) : {}, show: PLAIN });
    shown(next);
    rememberWhere();
    await letGo;
    await list();
  }

  async function list(): Promise<void> {
    set({ jobs: await store.list().catch(() => []) });
  }

  function forget(...keys: readonly ("job" | "refusal" | "unreadable")[]): void {
    const next = { ...state.getState() };
    for (const key of keys) delete (next as { [k in typeof key]?: unknown })[key];
    set(next, true);
  }

  function rememberWhere(): void {
    const { station, inHand } = state.getState();
    void store.remember("where", { job: held?.kept.entry.id ?? null, station, inHand });
  }

  function told(name: string, outcome: Outcome): Outcome {
    if (outcome.ok) forget("refusal");
    else set({ refusal: { ...outcome, name } });
    return outcome;
  }

  const noJob: Outcome = { ok: false, lines: ["open a job first"] };

  const actions: AppActions = {
    async start(demo) {
      const where = await store.recall("where");
      await list();
      const last = at(where ?? null, ["job"]);
      const { jobs } = state.getState();
      const id = jobs.find((job) => job.id === last)?.id ?? jobs[0]?.id;
      if (id === undefined) {
        const { name, text } = await demo();
        return actions.openFile(name, text);
      }
      await actions.openJob(id);
      const station = STATIONS.find((s) => s === at(where ?? null, ["station"]));
      if (station) actions.goTo(station);
      const bar = at(where ?? null, ["inHand"]);
      if (typeof bar === "string" && id === last) actions.take(bar);
    },
    run: (command, gesture) => told(command.name, held ? held.editor.run(command, gesture) : noJob),
    undo: () => told("undo", held ? held.editor.undo() : noJob),
    redo: () => told("redo", held ? held.editor.redo() : noJob),
    deleteBar: (id, others = "keep") =>
      actions.run(deleteBar(id, others, (bar) => standsIn({ byId: computer.results().bars }, bar))),
    take(bar) {
      const there = bar !== null && held && Object.hasOwn(thingsOf(held.editor.state().document, "bar"), bar);
      set({ inHand: there ? bar : null });
      rememberWhere();
    },
    goTo(station) {
      set({ station });
      rememberWhere();
    },
    setStep(key, step) {
      const steps = { ...state.getState().steps, [key]: step };
      set({ steps });
      if (held) void store.remember(`steps ${held.kept.entry.id}`, steps);
    },
    openJob: (id) => hold(() => store.open(id)),
    async openFile(name, content, again) {
      const read = readFile(content);
      if (!read.ok) {
        set({ unreadable: { name, lines: read.problems.map(problemLine), text: read.text } });
        return;
      }
      const file = { name, digest: await digestOf(content) };
      const jobs = await store.list().catch(() => []);
      const here = again && jobs.find((job) => job.file?.name === name && job.file.digest === file.digest);
      await (here ? hold(() => store.open(here.id)) : hold(() => store.create(read.document, file)));
    },
    newJob: (document) => hold(() => store.create(document)),
    async deleteJob(id) {
      if (held?.kept.entry.id === id) {
        turn++;
        await swap(undefined);
        forget("job", "refusal");
        set({ inHand: null, show: PLAIN });
      }
      await store.delete(id);
      await list();
    },
    dismiss: () => forget("refusal", "unreadable"),
    offerRestart(restart) {
      onRestart = restart;
      set({ newVersion: true });
    },
    async restart() {
      await held?.kept.settled();
      onRestart();
    },
    async close() {
      turn++;
      await swap(undefined);
      computer.close();
    },
  };
  return { state, do: actions, computer };
}

/** A job that an older version of the app kept becomes one of this version, in place. */
function bringUp(doc: Y.Doc): void {
  const was = toJson(doc);
  const now = upgraded(was) as Json;
  if (now !== was && isObject(now)) write(doc, now, "upgrade");
}

/** The lines of what keeps the job in hand from being one, for a person; none where it passes. */
export const linesOf = (read: JobRead): readonly string[] =>
  read.ok ? [] : (read.problems as readonly JobProblem[]).map(problemLine);
