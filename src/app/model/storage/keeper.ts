import * as Y from "yjs";
import { notSaved } from "../../../words/index.ts";
import { nameIn } from "../document/index.ts";
import { clearerOf, faultOf } from "./faults.ts";
import { LIMIT, NoAnswer } from "./limit.ts";
import type { Disk, JobEntry, Kept, KeptJob } from "./port.ts";

/** A refused write is tried again after this long (ms), and at the next change. */
const AGAIN = 3000;

/**
 * Hands every change of a document to a disk in the turn in which it is made, however many are on their way. Each
 * write has in it all that is not confirmed yet: where one is refused, whichever comes behind it leaves no gap.
 */
export function keep(disk: Disk, job: JobEntry, doc: Y.Doc, now: () => number, unwritten?: "new"): KeptJob {
  const listeners = new Set<() => void>();
  const waiting = new Set<() => void>();
  const confirmed: Kept =
    disk.passing === undefined ? { state: "kept" } : { state: "memory", why: disk.passing };
  let entry = job;
  let isNew = unwritten === "new";
  /** Changes that are not confirmed. */
  let open: readonly Uint8Array[] = [];
  /** Writes that the disk has not answered; none of those that were given up. */
  let underWay = new Set<object>();
  let isLate = false;
  let cause: unknown;
  let connection = disk.connection?.();
  let kept: Kept = isNew ? { state: "keeping" } : confirmed;
  let again: ReturnType<typeof setTimeout> | undefined;
  let late: ReturnType<typeof setTimeout> | undefined;

  function say(next: Kept): void {
    const same = kept.state === next.state && ("why" in kept && "why" in next ? kept.why === next.why : true);
    kept = next;
    if (!same) for (const listener of listeners) listener();
  }

  function quieten(): void {
    if (underWay.size > 0) return;
    for (const resolve of waiting) resolve();
    waiting.clear();
  }

  function refuse(error: unknown): void {
    cause = clearerOf(cause, error);
    clearTimeout(again);
    again = setTimeout(write, AGAIN);
    say({ state: "refused", why: notSaved(faultOf(cause)) });
  }

  /** Gives up what the disk does not answer; until it is tried again changes only gather. */
  function giveUp(): void {
    isLate = true;
    underWay = new Set();
    disk.renew?.();
    refuse(new NoAnswer(LIMIT));
    quieten();
  }

  /** From the last answer on. */
  function watch(): void {
    clearTimeout(late);
    if (underWay.size > 0) late = setTimeout(giveUp, LIMIT);
  }

  function write(): void {
    clearTimeout(again);
    isLate = false;
    if (!isNew && open.length === 0) return;
    const batch = open;
    const here = disk.connection?.();
    const isSame = !disk.connection || (here !== undefined && here === connection);
    // The whole job where it may not be there: an update without what it builds on is nothing.
    const isAll = isNew || cause !== undefined || !isSame;
    const update = isAll ? Y.encodeStateAsUpdate(doc) : Y.mergeUpdates([...batch]);
    const next = { ...entry, name: nameIn(doc) ?? entry.name, changed: now() };
    const mine = {};
    underWay.add(mine);
    if (underWay.size === 1) watch();
    if (kept.state !== "refused") say({ state: "keeping" });
    (isNew ? disk.begin(next, update) : disk.append(next, update)).then(
      () => {
        // also where it had been given up
        isNew = false;
        cause = undefined;
        connection = here;
        if (next.changed >= entry.changed) entry = next;
        open = open.filter((update) => !batch.includes(update));
        underWay.delete(mine);
        if (underWay.size === 0 && open.length === 0) {
          clearTimeout(again);
          isLate = false;
          say(confirmed);
        }
        watch();
        quieten();
      },
      (error: unknown) => {
        if (!underWay.delete(mine)) return;
        refuse(error);
        watch();
        quieten();
      },
    );
  }

  function onUpdate(update: Uint8Array): void {
    open = [...open, update];
    if (!isLate) write();
  }
  doc.on("update", onUpdate);
  if (isNew) write();

  const settled = (): Promise<Kept> =>
    new Promise((resolve) => {
      waiting.add(() => resolve(kept));
      quieten();
    });

  return {
    get entry() {
      return entry;
    },
    doc,
    kept: () => kept,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    settled,
    async close() {
      doc.off("update", onUpdate);
      if (kept.state === "refused" && underWay.size === 0) write();
      await settled();
      clearTimeout(again);
      clearTimeout(late);
      listeners.clear();
    },
  };
}
