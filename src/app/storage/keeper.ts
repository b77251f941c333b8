import * as Y from "yjs";
import { nameIn } from "../document/index.ts";
import { LIMIT, NoAnswer } from "./limit.ts";
import type { Disk, JobEntry, Kept, KeptJob } from "./port.ts";
import { refusalOf, tellingOf } from "./sentences.ts";

/** A refused write is tried again after this long (ms), and at the next change. */
const AGAIN = 3000;

/**
 * Hands every change of a document to a disk in the turn in which it is made, however many are on their way. What
 * was refused goes in again with the next one, or by itself a little later.
 */
export function keep(disk: Disk, job: JobEntry, doc: Y.Doc, now: () => number, unwritten?: "new"): KeptJob {
  const listeners = new Set<() => void>();
  const waiting = new Set<() => void>();
  const confirmed: Kept =
    disk.passing === undefined ? { state: "kept" } : { state: "memory", why: disk.passing };
  let entry = job;
  let isNew = unwritten === "new";
  let refused: readonly Uint8Array[] = [];
  let underWay = 0;
  let isLate = false;
  let cause: unknown;
  let kept: Kept = isNew ? { state: "keeping" } : confirmed;
  let again: ReturnType<typeof setTimeout> | undefined;
  let late: ReturnType<typeof setTimeout> | undefined;

  function say(next: Kept): void {
    const same = kept.state === next.state && ("why" in kept && "why" in next ? kept.why === next.why : true);
    kept = next;
    if (!same) for (const listener of listeners) listener();
  }

  const isQuiet = (): boolean => underWay === 0 || isLate;

  function quieten(): void {
    if (!isQuiet()) return;
    for (const resolve of waiting) resolve();
    waiting.clear();
  }

  /** From the oldest write that is not confirmed. */
  function watch(): void {
    clearTimeout(late);
    isLate = false;
    if (underWay === 0) return;
    late = setTimeout(() => {
      isLate = true;
      say({ state: "refused", why: refusalOf(new NoAnswer(LIMIT)) });
      quieten();
    }, LIMIT);
  }

  function write(update?: Uint8Array): void {
    clearTimeout(again);
    // until the first write is confirmed each is the whole job: an update without what it builds on is nothing
    const batch = isNew ? [Y.encodeStateAsUpdate(doc)] : [...refused, ...(update ? [update] : [])];
    if (batch.length === 0) return;
    const whole = batch.length === 1 ? batch[0]! : Y.mergeUpdates(batch);
    const next = { ...entry, name: nameIn(doc) ?? entry.name, changed: now() };
    refused = [];
    underWay++;
    if (underWay === 1) watch();
    if (kept.state !== "refused") say({ state: "keeping" });
    (isNew ? disk.begin(next, whole) : disk.append(next, whole)).then(
      () => {
        underWay--;
        isNew = false;
        cause = undefined;
        if (next.changed >= entry.changed) entry = next;
        if (underWay === 0 && refused.length === 0) say(confirmed);
        ended();
      },
      (error: unknown) => {
        underWay--;
        if (!isNew) refused = [...refused, whole];
        clearTimeout(again);
        again = setTimeout(write, AGAIN);
        cause = tellingOf(cause, error);
        say({ state: "refused", why: refusalOf(cause) });
        ended();
      },
    );
  }

  function ended(): void {
    watch();
    quieten();
  }

  const onUpdate = (update: Uint8Array): void => write(update);
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
      if (kept.state === "refused" && underWay === 0) write();
      await settled();
      clearTimeout(again);
      clearTimeout(late);
      listeners.clear();
    },
  };
}
