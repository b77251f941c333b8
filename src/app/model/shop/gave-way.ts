import * as Y from "yjs";
import { isList, type Json, rootOf, same, valueAt } from "../../../shared/index.ts";

/** A change of this device in whose place another's is, made by someone who had not seen it. */
export interface GaveWay {
  /** Keys from the job's top. */
  readonly path: readonly string[];
  /** Whose change counts; empty: not known. */
  readonly by: string;
  readonly mine: Json | undefined;
  readonly theirs: Json | undefined;
}

/** A change of this device, part by part. */
export interface Edited {
  /** Keys from the job's top. */
  readonly path: readonly string[];
  /** What it was made; undefined: taken out. */
  readonly value?: Json | undefined;
  /** The last change of the shop that this device had had when it was made. */
  readonly seen: number;
}

interface Edit extends Edited {
  /** The number under which it was sent; undefined: not sent yet. */
  n?: number;
  /** The number under which the shop has it; undefined: not yet. */
  seq?: number;
}

export interface Edits {
  /** What was made up to now goes as change `n`. */
  sent(n: number): void;
  /** The shop has changes up to `n`, as `seq`. */
  stored(n: number, seq: number): void;
  /** Does it, and answers which changes of this device gave way to it: those that its maker had not seen (`since`). */
  during(work: () => void, by: string, since: number): readonly GaveWay[];
  /** What the shop does not have yet. */
  unsent(): readonly Edited[];
  /** What this device had had of the shop when it made the oldest part of that; undefined: there is none. */
  since(): number | undefined;
  stop(): void;
}

/** Changes of this device that someone may still not have seen: more than so many are not looked after. */
const MOST = 500;

/**
 * Watches what this device changes, part by part as the parts are shared (`mirror.ts`). Two who change one part at
 * once both see the same afterwards, and one of both changes is not there: whoever made that one is to know. `seen`:
 * the last change of the shop that this device has had; `before`: what was not sent when the page was last open.
 */
export function watchEdits(
  doc: Y.Doc,
  others: unknown,
  seen: () => number,
  before: readonly Edited[] = [],
): Edits {
  const root = rootOf(doc);
  let edits: Edit[] = [...before];
  let touched: (readonly string[])[] = [];

  function onEvents(events: Y.YEvent<Y.AbstractType<unknown>>[], transaction: Y.Transaction): void {
    const paths = events.flatMap(pathsOf);
    if (transaction.origin === others) {
      touched.push(...paths);
      return;
    }
    // another window of this device watches for itself
    if (!transaction.local) return;
    const now = paths.map((path) => ({ path, value: valueAt(doc, path), seen: seen() }));
    edits = edits.filter((e) => !now.some(({ path }) => isWithin(e.path, path)));
    edits.push(...now);
    if (edits.length > MOST) edits = edits.slice(-MOST);
  }
  root.observeDeep(onEvents);
  const unsent = (): readonly Edit[] => edits.filter((e) => e.seq === undefined);

  return {
    sent(n) {
      for (const edit of edits) edit.n ??= n;
    },
    stored(n, seq) {
      for (const edit of edits) if (edit.n !== undefined && edit.n <= n) edit.seq ??= seq;
    },
    during(work, by, since) {
      touched = [];
      work();
      const notSeen = edits.filter((e) => e.seq === undefined || e.seq > since);
      const gave = notSeen.filter(
        ({ path, value }) =>
          touched.some((t) => isWithin(path, t) || isWithin(t, path)) && !isThere(value, valueAt(doc, path)),
      );
      touched = [];
      edits = edits.filter((e) => !gave.includes(e));
      return gave.map(({ path, value }) => ({ path, by, mine: value, theirs: valueAt(doc, path) }));
    },
    unsent: () => unsent().map(({ path, value, seen: then }) => ({ path, value, seen: then })),
    since: () =>
      unsent().reduce<number | undefined>((least, e) => Math.min(least ?? e.seen, e.seen), undefined),
    stop: () => root.unobserveDeep(onEvents),
  };
}

/** Whether a part is still what it was made; a list may have more by now. */
const isThere = (mine: Json | undefined, now: Json | undefined): boolean =>
  isList(mine) && isList(now) ? mine.every((entry) => now.some((one) => same(one, entry))) : same(mine, now);

/** Whether a path lies at or below another. */
const isWithin = (path: readonly string[], of: readonly string[]): boolean =>
  of.every((key, i) => path[i] === key);

/** The parts that an event is of. What lies below a list is one part: its entries have no names. */
function pathsOf(event: Y.YEvent<Y.AbstractType<unknown>>): readonly (readonly string[])[] {
  const cut = event.path.findIndex((step) => typeof step === "number");
  const path = (cut < 0 ? event.path : event.path.slice(0, cut)).map(String);
  if (!(event.target instanceof Y.Map) || cut >= 0) return [path];
  // the order of keys is nobody's change
  return [...event.changes.keys.keys()].filter((key) => key !== "").map((key) => [...path, key]);
}
