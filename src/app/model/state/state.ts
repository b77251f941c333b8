import type * as Y from "yjs";
import { createStore } from "zustand/vanilla";
import { type JobProblem, type JobRead, upgraded } from "../../../core/job/index.ts";
import { marksOnly } from "../../../shared/index.ts";
import { problemLine, REFUSED, readOnly, STEP, STORED } from "../../../words/index.ts";
import { standsIn } from "../compute/index.ts";
import {
  at,
  deleteBar,
  type Editor,
  editorOf,
  isObject,
  type Json,
  type Outcome,
  stepBack,
  thingsOf,
  throwAway,
  toJson,
  write,
} from "../document/index.ts";
import { digestOf, faultOf, type KeptJob, type Opened, readFile, within } from "../storage/index.ts";
import { judging } from "./judging.ts";
import { keepMoves, NO_MOVES } from "./moves.ts";
import { keepOwnShop } from "./own-shop.ts";
import {
  type App,
  type AppActions,
  type AppPorts,
  type AppState,
  type JobInHand,
  NO_CHANGE,
  STATIONS,
} from "./state-types.ts";

export * from "./state-types.ts";

const PLAIN = { length: "mm", fraction: 16 } as const;

/** How long the demo car is waited for (ms). */
const DEMO = 10_000;

interface Held {
  readonly editor: Editor;
  readonly kept: KeptJob;
  readonly leave: () => void;
}

export function appWith(ports: AppPorts): App {
  const { store, computer, join, later = (tell) => tell(), isDemo = () => false } = ports;
  const state = createStore<AppState>(() => ({
    jobs: [],
    results: computer.results(),
    moves: NO_MOVES,
    changed: NO_CHANGE,
    inHand: null,
    marked: [],
    station: "wall",
    names: false,
    show: PLAIN,
    steps: {},
    cautions: [],
    newVersion: false,
    ...(store.passing === undefined ? {} : { passing: store.passing }),
  }));
  const set = state.setState;
  let waitsFor: string | undefined;
  const judge = judging({
    state,
    computer,
    editor: () => held?.editor,
    reported,
    done() {
      const bar = waitsFor;
      waitsFor = undefined;
      if (bar !== undefined && hasBar(bar)) actions.take(bar);
    },
  });
  let held: Held | undefined;
  let turn = 0;
  let onRestart = (): void => {};
  keepMoves(state);
  const keepShop = keepOwnShop(state, store, isDemo);
  let isDue = false;
  computer.subscribe(() => {
    if (isDue) return;
    isDue = true;
    later(() => {
      isDue = false;
      set({ results: computer.results() });
    });
  });

  function shown({ editor, kept }: Held): void {
    const { document, read, did, undo, redo } = editor.state();
    const steps = { ...(undo === undefined ? {} : { undo }), ...(redo === undefined ? {} : { redo }) };
    const job: JobInHand = { entry: kept.entry, document, read, did, kept: kept.kept(), ...steps };
    const { inHand, marked, job: before } = state.getState();
    const bars = thingsOf(document, "bar");
    const stays = inHand !== null && Object.hasOwn(bars, inHand);
    // the same list where all of them are still there: who shows it has nothing to do
    const there = marked.every((id) => Object.hasOwn(bars, id))
      ? marked
      : marked.filter((id) => Object.hasOwn(bars, id));
    const shows = read.ok ? { show: read.job.show } : {};
    set({ job, inHand: stays ? inHand : null, marked: there, ...shows });
    caution("newer", read.newer && readOnly(read.newer.version));
    if (before?.document !== document) computer.compute(document, read);
  }

  /** Puts another job, or none, in the place of the one held, and commits what that one still had waiting. */
  async function swap(next: Held | undefined): Promise<void> {
    const was = held;
    held = next;
    judge.drop();
    forget("again");
    was?.leave();
    was?.editor.close();
    await was?.kept.close();
  }

  /** Holds a job that is open and whole; gives it back at once where another was asked for meanwhile. */
  async function hold(opening: () => Promise<Opened>): Promise<boolean> {
    const mine = ++turn;
    // the one to open may be the one in hand: its last change must be there to be read
    await held?.kept.settled();
    const opened = await opening().catch((error: unknown) => ({ is: "closed" as const, error }));
    const kept = opened.is === "open" ? opened.job : undefined;
    const last = kept && (await store.recall(`steps ${kept.entry.id}`));
    if (!kept || mine !== turn) {
      await kept?.close();
      if (mine === turn) notOpened(opened);
      await list();
      return false;
    }
    bringUp(kept.doc);
    const editor = editorOf(kept.doc, (before, after) =>
      state.getState().shop?.rights === "marks" && !marksOnly(before, after) ? [REFUSED.marks] : [],
    );
    const next: Held = { editor, kept, leave: join(kept.doc, kept.entry.id) };
    const letGo = swap(next);
    const show = (): void => {
      if (held === next) shown(next);
    };
    editor.subscribe(show);
    kept.subscribe(show);
    forget("unreadable", "refusal", "job", "damaged", "question");
    caution("job");
    set({
      inHand: null,
      marked: [],
      steps: isObject(last) ? (last as Record<string, number>) : {},
      show: PLAIN,
    });
    shown(next);
    rememberWhere();
    await letGo;
    await list();
    return true;
  }

  function notOpened(opened: Opened | { readonly is: "closed"; readonly error: unknown }): void {
    if (opened.is === "damaged") set({ damaged: opened.damaged });
    if (opened.is === "gone") caution("job", STORED.gone);
    if (opened.is === "closed") caution("job", STORED.notOpened(faultOf(opened.error)));
  }

  async function list(): Promise<void> {
    try {
      const jobs = await store.list();
      forget("notListed");
      set({ jobs });
    } catch (error) {
      set({ notListed: STORED.notListed(faultOf(error)) });
    }
  }

  function caution(key: string, text?: string): void {
    const others = state.getState().cautions.filter((one) => one.key !== key);
    if (text === undefined && others.length === state.getState().cautions.length) return;
    set({ cautions: text === undefined ? others : [...others, { key, text }] });
  }

  type Passing =
    | "again"
    | "question"
    | "job"
    | "refusal"
    | "unreadable"
    | "damaged"
    | "notListed"
    | "starting";
  function forget(...keys: readonly Passing[]): void {
    const next = { ...state.getState() };
    for (const key of keys) delete (next as { [k in typeof key]?: unknown })[key];
    set(next, true);
  }

  function rememberWhere(): void {
    const { station, inHand } = state.getState();
    void store.remember("where", { job: held?.kept.entry.id ?? null, station, inHand });
  }

  function reported(name: string, outcome: Outcome): Outcome {
    if (outcome.ok) forget("refusal");
    else set({ refusal: { ...outcome, name } });
    return outcome;
  }

  const hasBar = (bar: string): boolean =>
    held !== undefined && Object.hasOwn(thingsOf(held.editor.state().document, "bar"), bar);

  const actions: AppActions = {
    async start(first) {
      const where = await store.recall("where");
      await list();
      const last = at(where ?? null, ["job"]);
      const { jobs, notListed } = state.getState();
      // there may well be jobs: a demo in their place would look as if they were gone
      if (notListed !== undefined) return;
      const id = jobs.find((job) => job.id === last)?.id ?? jobs[0]?.id;
      if (id === undefined) {
        try {
          const file = await within(first(), DEMO);
          if (file) await actions.openFile(file.name, file.text);
        } catch {
          caution("demo", STORED.noDemo);
        }
        return;
      }
      await actions.openJob(id);
      const station = STATIONS.find((s) => s === at(where ?? null, ["station"]));
      if (station) actions.goTo(station);
      const bar = at(where ?? null, ["inHand"]);
      if (typeof bar === "string" && id === last) actions.take(bar);
    },
    run: (command, gesture) => judge.run(command, gesture),
    markStep: judge.mark,
    stepBack: (bar, to) => void actions.run(stepBack(bar, to)),
    makeAgain: (bar) => set({ again: bar }),
    answerAgain(yes) {
      const { again } = state.getState();
      forget("again");
      if (!yes || again === undefined) return;
      judge.run(throwAway(again), undefined, () => {
        for (const key of Object.keys(state.getState().steps))
          if (key.split(" ")[1] === again) actions.setStep(key, 0);
      });
    },
    answerChange: judge.answer,
    undo: () => judge.step("undo", STEP.undo),
    redo: () => judge.step("redo", STEP.redo),
    deleteBar: (id, others = "keep") =>
      actions.run(deleteBar(id, others, (bar) => standsIn({ byId: computer.results().bars }, bar))),
    take(bar) {
      const there = bar !== null && hasBar(bar);
      // a bar that a change which waits brings is taken in hand with it
      waitsFor = bar !== null && !there && judge.waits() ? bar : undefined;
      if (waitsFor === undefined) set({ inHand: there ? bar : null });
      rememberWhere();
    },
    mark(bars, isOn) {
      const { marked } = state.getState();
      const others = marked.filter((id) => !bars.includes(id));
      const fresh = [...new Set(bars)].filter((id) => !marked.includes(id) && hasBar(id));
      set({ marked: isOn ? [...marked, ...fresh] : others });
    },
    ask: (question) => (question ? set({ question }) : forget("question")),
    goTo(station) {
      set({ station });
      rememberWhere();
    },
    showNames: (names) => set({ names }),
    setStep(key, step) {
      const steps = { ...state.getState().steps, [key]: step };
      set({ steps });
      if (held) void store.remember(`steps ${held.kept.entry.id}`, steps);
    },
    openJob: (id) => hold(() => store.open(id)),
    list,
    adopt: (id, doc) => hold(() => made(store.adopt(id, doc))),
    async openRest() {
      const { damaged } = state.getState();
      if (!damaged?.document) return;
      const document = {
        ...damaged.document,
        name: STORED.recovered(damaged.entry.name.slice(0, 100)),
      };
      await hold(() => made(store.create(document)));
    },
    async openFile(name, content, again) {
      const read = readFile(content);
      if (!read.ok && !read.newer) {
        set({ unreadable: { name, lines: read.problems.map(problemLine), text: read.text } });
        return;
      }
      const document = read.ok ? read.document : read.newer;
      const file = { name, digest: await digestOf(content).catch(() => "") };
      const jobs = await store.list().catch(() => []);
      const here =
        again &&
        jobs.find((job) => job.file?.name === name && job.file.digest === file.digest && file.digest);
      await (here ? hold(() => store.open(here.id)) : hold(() => made(store.create(document, file))));
    },
    keepShop,
    async newJob(document) {
      await hold(() => made(store.create(document)));
    },
    async deleteJob(id) {
      if (held?.kept.entry.id === id) {
        turn++;
        await swap(undefined);
        forget("job", "refusal");
        caution("newer");
        set({ inHand: null, marked: [], show: PLAIN });
      }
      if (state.getState().damaged?.entry.id === id) forget("damaged");
      await store.delete(id).catch((error: unknown) => caution("job", STORED.notDeleted(faultOf(error))));
      await list();
    },
    dismiss: () => forget("refusal", "unreadable", "damaged"),
    caution,
    starting: (step) => (step === undefined ? forget("starting") : set({ starting: step })),
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
  const owned = new Map<unknown, unknown>();
  const app: App = {
    state,
    do: actions,
    computer,
    own<T>(make: (app: App) => T): T {
      if (!owned.has(make)) owned.set(make, make(app));
      return owned.get(make) as T;
    },
  };
  return app;
}

const made = async (job: Promise<KeptJob>): Promise<Opened> => ({ is: "open", job: await job });

/** A job that an older version of the app kept becomes one of this version, in place. */
function bringUp(doc: Y.Doc): void {
  const was = toJson(doc);
  const now = upgraded(was) as Json;
  if (now !== was && isObject(now)) write(doc, now, "upgrade");
}

/** The lines of what keeps the job in hand from being one, for a person; none where it passes. */
export const linesOf = (read: JobRead): readonly string[] =>
  read.ok ? [] : (read.problems as readonly JobProblem[]).map(problemLine);
