import type { Notch } from "../../../core/cope/index.ts";
import { type JobRead, readAnyVersion } from "../../../core/job/index.ts";
import type { Document } from "../../../draw/index.ts";
import type { JobDocument } from "../document/index.ts";
import type { AskKind, AskOf } from "./answers/index.ts";
import type {
  BarResult,
  CardRequest,
  ComputeAnswer,
  Engine,
  NotchRequest,
  Results,
  Told,
} from "./protocol.ts";

/** Computes whatever document it is given last, and never makes the page wait for it. */
export interface Computer {
  /**
   * At most one document is being computed and one waits: of those that come meanwhile only the last. `read`: the job
   * in it, where one has it already. One that does not pass leaves what was computed as it was.
   */
  compute(document: JobDocument, read?: JobRead): void;
  results(): Results;
  subscribe(listener: () => void): () => void;
  /** Resolves when the last document given has been answered. */
  settled(): Promise<Results>;
  notch(request: NotchRequest): Promise<Notch | undefined>;
  card(request: CardRequest): Promise<Document | undefined>;
  preview: Engine["preview"];
  pdf(request: CardRequest): Promise<Uint8Array | undefined>;
  ask: Engine["ask"];
  /** Goes on with another engine (the worker failed): it is given the last document anew. */
  replace(engine: Engine): void;
  close(): void;
}

const NOTHING: Results = {
  bars: new Map(),
  without: [],
  mutual: [],
  dies: new Map(),
  points: {},
  problems: [],
  moved: [],
  computing: false,
  took: 0,
};

/** A computation is told of as under way after so long (ms): before, its answer is nearer than the eye. */
const SLOW = 100;

interface Given {
  readonly document: JobDocument;
  readonly read: JobRead;
}

export function computerOn(first: Engine): Computer {
  const listeners = new Set<() => void>();
  const idle: (() => void)[] = [];
  /** What is asked and not answered yet. */
  const open = new Set<() => void>();
  let engine = first;
  let results = NOTHING;
  let revision = 0;
  let waiting: Given | undefined;
  let computing: Given | undefined;
  let last: Given | undefined;
  let slow: ReturnType<typeof setTimeout> | undefined;

  function show(next: Results): void {
    results = next;
    clearTimeout(slow);
    slow = undefined;
    for (const listener of listeners) listener();
    if (!next.computing) for (const resolve of idle.splice(0)) resolve();
  }

  function next(): void {
    const given = waiting;
    if (given === undefined || computing !== undefined) return;
    const { document, read } = given;
    waiting = undefined;
    computing = given;
    const asked = engine;
    const taken = (answer: ComputeAnswer): void => {
      // an engine that was replaced may still answer
      if (asked !== engine) return;
      computing = undefined;
      show(merged(results, answer, document, waiting !== undefined));
      next();
    };
    const stopped = (error: unknown): void => taken(failure(error, revision));
    try {
      revision++;
      const answer = read.ok
        ? asked.compute({ revision, job: read.job })
        : { ok: false as const, revision, problems: read.problems };
      if (answer instanceof Promise) {
        results = { ...results, computing: true };
        slow ??= setTimeout(() => show(results), SLOW);
        answer.then(taken, stopped);
      } else taken(answer);
    } catch (error) {
      stopped(error);
    }
  }

  const asTyped = (request: CardRequest): CardRequest =>
    (request.card === "readings" || request.print?.job.includes("readings")) && last
      ? { ...request, document: last.document }
      : request;

  return {
    compute(document, read = readAnyVersion(document)) {
      last = { document, read };
      waiting = last;
      next();
    },
    results: () => results,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    settled: () =>
      new Promise((resolve) => {
        const tell = (): void => resolve(results);
        if (computing === undefined && waiting === undefined) tell();
        else idle.push(tell);
      }),
    notch: async (request) => engine.notch(request),
    card: (request) => engine.card(asTyped(request)),
    preview: (request) => engine.preview(asTyped(request)),
    pdf: (request) => engine.pdf(asTyped(request)),
    ask<K extends AskKind>(kind: K, about: AskOf<K>) {
      return new Promise<Told<K> | undefined>((resolve, reject) => {
        const put = (): void => {
          const asked = engine;
          const over = (tell: () => void): void => {
            if (asked !== engine) return;
            open.delete(put);
            tell();
          };
          asked.ask(kind, about).then(
            (told) => over(() => resolve(told)),
            (error: unknown) => over(() => reject(error)),
          );
        };
        open.add(put);
        put();
      });
    },
    replace(other) {
      engine.close();
      engine = other;
      computing = undefined;
      waiting = last;
      next();
      // what was asked of the one before stays unanswered there
      for (const put of open) put();
    },
    close() {
      clearTimeout(slow);
      engine.close();
      listeners.clear();
    },
  };
}

/** A computation that stopped is our fault and no one's slip; it must neither hang nor pass for an answer. */
function failure(error: unknown, revision: number): ComputeAnswer {
  const what = error instanceof Error ? error.message : String(error);
  const problem = { place: "job", code: "stopped", values: { what: { text: what } } } as const;
  return { ok: false, revision, problems: [problem] };
}

function merged(before: Results, answer: ComputeAnswer, document: JobDocument, more: boolean): Results {
  if (!answer.ok) return { ...before, document, problems: answer.problems, moved: [], computing: more };
  const changed = new Map(answer.changed.map((bar) => [bar.id, bar]));
  const bars = new Map<string, BarResult>();
  for (const id of answer.order) {
    const bar = changed.get(id) ?? before.bars.get(id);
    if (bar) bars.set(id, bar);
  }
  const gone = [...before.bars.keys()].filter((id) => !bars.has(id));
  const { without, mutual, took, points = before.points } = answer;
  const moved = [...changed.keys(), ...gone];
  const dies = new Map(answer.dies);
  return { document, bars, without, mutual, dies, points, problems: [], moved, computing: more, took };
}
