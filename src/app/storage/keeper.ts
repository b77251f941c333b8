import * as Y from "yjs";
import { at, toJson } from "../document/index.ts";
import { type Disk, type JobEntry, type Kept, type KeptJob, refusalOf } from "./port.ts";

/** A refused write is tried again after this long (ms), and at the next change. */
const AGAIN = 3000;

/** From one write to the next (ms): a drag is a few writes a second, and no change is ever late by more than this. */
const BREATH = 250;

/**
 * Commits every change of a document to a disk: the first at once, those that come close behind it together a breath
 * later. What was refused stays in the queue.
 */
export function keep(disk: Disk, job: JobEntry, doc: Y.Doc, now: () => number, unwritten?: "new"): KeptJob {
  const listeners = new Set<() => void>();
  let entry = job;
  let isNew = unwritten === "new";
  let waiting: Uint8Array[] = isNew ? [Y.encodeStateAsUpdate(doc)] : [];
  let writing: Promise<void> | undefined;
  let kept: Kept = { state: isNew ? "keeping" : "kept" };
  let timer: ReturnType<typeof setTimeout> | undefined;
  let written = -BREATH;
  let isClosing = false;
  let hurry = (): void => {};

  /** Waits until a breath after the last write; not where someone waits for it. */
  async function breathe(): Promise<void> {
    const left = written + BREATH - performance.now();
    if (left <= 0 || isClosing) return;
    await new Promise<void>((resolve) => {
      const due = setTimeout(resolve, left);
      hurry = () => {
        clearTimeout(due);
        resolve();
      };
    });
  }

  function say(next: Kept): void {
    const same =
      kept.state === next.state && (next.state !== "refused" || (kept as typeof next).why === next.why);
    kept = next;
    if (!same) for (const listener of listeners) listener();
  }

  async function writeAll(): Promise<void> {
    clearTimeout(timer);
    while (waiting.length > 0) {
      await breathe();
      if (!isNew) written = performance.now();
      const batch = waiting;
      const update = batch.length === 1 ? batch[0]! : Y.mergeUpdates(batch);
      const name = at(toJson(doc), ["name"]);
      const next = { ...entry, name: typeof name === "string" ? name : "", changed: now() };
      try {
        await (isNew ? disk.begin(next, update) : disk.append(next, update));
      } catch (error) {
        say({ state: "refused", why: refusalOf(error) });
        timer = setTimeout(start, AGAIN);
        return;
      }
      entry = next;
      isNew = false;
      waiting = waiting.slice(batch.length);
    }
    say({ state: "kept" });
  }

  function start(): void {
    writing ??= writeAll().finally(() => {
      writing = undefined;
    });
  }

  function onUpdate(update: Uint8Array): void {
    // pushed into a new list: the one being written must keep its length
    waiting = [...waiting, update];
    if (kept.state === "kept") say({ state: "keeping" });
    start();
  }
  doc.on("update", onUpdate);
  if (waiting.length > 0) start();

  async function settled(): Promise<Kept> {
    hurry();
    await writing;
    return writing ? settled() : kept;
  }

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
      isClosing = true;
      hurry();
      if (waiting.length > 0) start();
      await settled();
      clearTimeout(timer);
      listeners.clear();
    },
  };
}
