import type { FitMemory, Judged, Ordered, Reach } from "../../core/fit/index.ts";
import { twinsOf } from "../../core/layout/index.ts";
import { ORDER_PAGE } from "../../words/index.ts";
import type { FitAsked, FitPart, FoundCure } from "../model/compute/index.ts";
import { type LongRun, type Progress, runLong } from "../model/compute/index.ts";
import type { JobDocument } from "../model/document/index.ts";
import type { App } from "../model/state/index.ts";
import { type Keys, keyMaker } from "./keys.ts";
import { cureKey, type Known, orderOf, rowOf, type Tag } from "./row.ts";

/** The row of tags, and how far the looking has come. A new object after every change. */
export interface Look {
  readonly row: readonly Tag[];
  /** Where a torch still gets to in this order; empty while it is not known. */
  readonly reach: readonly Reach[];
  /** Asked for, and kept up after every move and edit until it is stopped. */
  readonly isOn: boolean;
  /** What is being worked at now. */
  readonly run?: { readonly what: "look" | "find"; readonly at: string; readonly share: number };
  /** Why the last run came to nothing. */
  readonly fault?: string;
  /** An order that the program found; used only when the user asks for that. */
  readonly found?: Ordered;
}

export interface Looking {
  get(): Look;
  subscribe(tell: () => void): () => void;
  /** Looks at all bars, and goes on doing so. */
  lookAtAll(): void;
  /** Looks at one bar in the order as it is. */
  lookAt(id: string): void;
  /** Ends what runs, at once. What was found out stays. */
  stop(): void;
  /** Looks for an order in which all go in. */
  find(): void;
  /** Puts the order that was found away. */
  leave(): void;
}

/** What does the work: a worker of its own in the page, the same code at hand in a test. */
export type Runner = (
  document: JobDocument,
  onProgress: (progress: Progress) => void,
  asked: FitAsked,
) => Pick<LongRun<"fit">, "done" | "stop">;

const inWorker: Runner = (document, onProgress, asked) =>
  runLong("fit", document, onProgress, undefined, asked);

/** Edits come in bursts; the worker is not started again for each (ms). */
const PAUSE = 250;
/** Answers kept; the oldest go first. */
const MOST = 1500;
const NOTHING: Look = { row: [], reach: [], isOn: false };

const inPage = (app: App): Looking => watch(app, inWorker, PAUSE);

/** One for the whole app, so that walking to another station forgets nothing. */
export const lookingOf = (app: App): Looking => app.own(inPage);

/** The job as it is computed now, with the order that it has. */
interface Now {
  readonly document: JobDocument;
  readonly order: readonly string[];
  readonly orderKey: string;
  readonly keys: Keys;
  readonly row: readonly Tag[];
}

export function watch(app: App, run: Runner, pause: number): Looking {
  const listeners = new Set<() => void>();
  const keysOf = keyMaker();
  let look = NOTHING;
  let job: string | undefined;
  let now: Now | undefined;
  let settled: JobDocument | undefined;
  let memory: FitMemory | undefined;
  let judged = new Map<string, Judged>();
  let last = new Map<string, Judged>();
  let cures = new Map<string, FoundCure>();
  let reach = new Map<string, readonly Reach[]>();
  /** Bars asked for one by one. */
  let singles = new Set<string>();
  let running: { readonly orderKey: string; readonly ask: ReadonlySet<string>; stop(): void } | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;

  function show(next: Partial<Look>, ...without: readonly (keyof Look)[]): void {
    const shown = { ...look, ...next };
    for (const key of without) delete (shown as { [k in keyof Look]?: unknown })[key];
    look = shown;
    for (const tell of listeners) tell();
  }

  function forgetJob(): void {
    halt();
    [judged, last, cures, reach] = [new Map(), new Map(), new Map(), new Map()];
    singles = new Set();
    memory = undefined;
    now = undefined;
    look = NOTHING;
  }

  /** The row again: the job, or what is known of it, is another. */
  function refresh(): void {
    const state = app.state.getState();
    if (state.job?.entry.id !== job) {
      job = state.job?.entry.id;
      settled = undefined;
      forgetJob();
      show({});
    }
    const read = state.job?.read;
    const { results } = state;
    // Until the results are of this very job the row stays as it was.
    if (!state.job || !read?.ok || results.computing || results.document !== state.job.document) return;
    const { document } = state.job;
    const keys = keysOf(results, read.job);
    const order = orderOf(document, results.bars).filter((id) => results.bars.has(id));
    const known: Known = { judged, last, cures, reach };
    const row = rowOf(document, read.job, results, keys, known, twinsOf(read.job));
    const orderKey = keys.ofOrder(order);
    const isNew = settled !== document;
    if (now && now.orderKey !== orderKey && look.found) show({}, "found");
    now = { document, order, orderKey, keys, row };
    settled = document;
    show({ row, reach: reach.get(orderKey) ?? [] });
    if (isNew) later();
  }

  function later(): void {
    clearTimeout(timer);
    timer = setTimeout(keepUp, pause);
  }

  const unseen = (): readonly string[] =>
    now?.row.filter((t) => t.state === "unseen" && (look.isOn || singles.has(t.id))).map((t) => t.id) ?? [];

  /** Starts looking at what is not known, unless that is being looked at already. */
  function keepUp(): void {
    if (!now) return;
    if (running && look.run?.what === "find") {
      if (running.orderKey === now.orderKey) return;
      halt();
      show({ fault: ORDER_PAGE.findAgain }, "run");
    }
    const ask = unseen();
    const stuck = look.isOn
      ? now.row.filter((t) => t.state === "no" && t.missing.length === 0 && t.cure === undefined)
      : now.row.filter((t) => singles.has(t.id) && t.state === "no" && t.cure === undefined);
    const welds = look.isOn && !reach.has(now.orderKey);
    const { ask: asked } = running ?? {};
    if (asked && running?.orderKey === now.orderKey && ask.every((id) => asked.has(id))) return;
    halt();
    if (ask.length === 0 && stuck.length === 0 && !welds) {
      singles = new Set();
      show({}, "run");
      return;
    }
    const { order } = now;
    start(now, ask, {
      what: "look",
      order,
      ask,
      cures: stuck.map((t) => t.id),
      reach: welds,
      ...(memory ? { memory } : {}),
    });
  }

  function start({ orderKey, document, keys }: Now, ask: readonly string[], asked: FitAsked): void {
    let self: typeof running;
    const mine = (): boolean => running === self;
    const begun = run(document, (progress) => mine() && heard(progress, orderKey, keys), asked);
    self = { orderKey, ask: new Set(ask), stop: () => begun.stop() };
    running = self;
    show({ run: { what: asked.what, at: "", share: 0 } }, "fault");
    begun.done.then(
      (answer) => {
        if (!mine()) return;
        running = undefined;
        if (answer) memory = answer.memory;
        for (const j of answer?.found?.bars ?? []) take(j, keys);
        show(answer?.found ? { found: answer.found } : {}, "run");
        singles = new Set();
        refresh();
        later();
      },
      (error: unknown) => {
        if (!mine()) return;
        running = undefined;
        show({ isOn: false, fault: error instanceof Error ? error.message : String(error) }, "run");
      },
    );
  }

  function heard({ share, at, part }: Progress, orderKey: string, keys: Keys): void {
    const word = part as FitPart | undefined;
    if (word && "judged" in word) take(word.judged, keys);
    if (word && "cure" in word) cures.set(cureKey(orderKey, word.cure.bar), word.cure);
    if (word && "reach" in word) reach.set(orderKey, word.reach);
    if (word && "memory" in word) memory = word.memory;
    if (look.run) look = { ...look, run: { ...look.run, at, share } };
    if (word) refresh();
    else show({});
  }

  function take(j: Judged, keys: Keys): void {
    if (j.stopped) return;
    const key = keys.of(j.bar, j.after);
    if (key === undefined) return;
    judged.set(key, j);
    for (const old of judged.keys()) {
      if (judged.size <= MOST) break;
      judged.delete(old);
    }
    // In an order that was only looked for, an answer is none that the row ever showed.
    if (look.run?.what !== "find") last.set(j.bar, j);
  }

  function halt(): void {
    clearTimeout(timer);
    running?.stop();
    running = undefined;
  }

  app.state.subscribe((state, before) => {
    if (state.job !== before.job || state.results !== before.results) refresh();
  });
  refresh();

  return {
    get: () => look,
    subscribe(tell) {
      listeners.add(tell);
      return () => listeners.delete(tell);
    },
    lookAtAll() {
      show({ isOn: true }, "fault");
      keepUp();
    },
    lookAt(id) {
      singles.add(id);
      keepUp();
    },
    stop() {
      halt();
      singles = new Set();
      show({ isOn: false }, "run");
    },
    find() {
      if (!now) return;
      halt();
      show({}, "found");
      start(now, [], { what: "find", ...(memory ? { memory } : {}) });
    },
    leave: () => show({}, "found"),
  };
}
