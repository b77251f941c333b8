import * as Y from "yjs";
import type { FromShop, Present, Reason } from "../../../shared/index.ts";
import { type Edited, type GaveWay, watchEdits } from "./gave-way.ts";
import type { Line } from "./line.ts";

/** Where a job is kept beside this device. */
export type Shared =
  /** Not connected; `unsent`: there are changes that the shop does not have. */
  | { readonly is: "apart"; readonly unsent: boolean }
  | { readonly is: "saving" }
  /** The shop has all of it, the last change at this time (milliseconds since 1970). */
  | { readonly is: "kept"; readonly at: number }
  | { readonly is: "refused"; readonly reason: Reason };

export interface ShareOptions {
  readonly doc: Y.Doc;
  readonly job: string;
  readonly line: Line;
  /** The device brings the job along where the shop has none of that ID. */
  readonly isNew: boolean;
  /** The last change of the shop that this device has had. */
  readonly seen: number;
  /** What this device changed before, and the shop does not have (`unsent` of the share of then). */
  readonly edits?: readonly Edited[];
  readonly onSeen?: (seq: number) => void;
  /** Changes of this device in whose place another's are. */
  readonly onGaveWay?: (what: readonly GaveWay[]) => void;
}

export interface Share {
  state(): Shared;
  present(): readonly Present[];
  /** What this device changed and the shop does not have; of use to the next page, where this one ends before. */
  unsent(): readonly Edited[];
  /** Called with every change of the state, of who is present, and of what is not sent. */
  subscribe(listener: () => void): () => void;
  /** Resolves when the shop's job is in the document; false where the shop has none for this device. */
  readonly opened: Promise<boolean>;
  at(station: string, bar: string): void;
  /** Takes part again in a job that was deleted and is back. */
  rejoin(): void;
  leave(): void;
}

/** What the shop did not take is sent again after this long (ms). */
const AGAIN = 3000;
let channels = 0;

/**
 * Keeps a document in step with the shop's. One change is on its way at a time; what is made meanwhile goes as one
 * when that is stored. On every connection both sides first give each other what they lack.
 */
export function share(options: ShareOptions): Share {
  const { doc, job, line, isNew, onSeen, onGaveWay } = options;
  const origin = {};
  const listeners = new Set<() => void>();
  let seen = options.seen;
  const edits = watchEdits(doc, origin, () => seen, options.edits);
  let state: Shared = { is: "apart", unsent: false };
  let who: readonly Present[] = [];
  let channel = 0;
  let isOpen = false;
  let n = 0;
  /** The number of the change that is on its way. */
  let underWay: number | undefined;
  let waiting: Uint8Array[] = [];
  let isDue = false;
  let place = { station: "", bar: "" };
  let again: ReturnType<typeof setTimeout> | undefined;
  let answer: (is: boolean) => void = () => {};
  const opened = new Promise<boolean>((resolve) => {
    answer = resolve;
  });

  function say(next: Shared): void {
    state = next;
    for (const listener of listeners) listener();
  }

  function open(): void {
    clearTimeout(again);
    if (line.state() !== "up") return;
    channel = ++channels;
    isOpen = false;
    underWay = undefined;
    line.send({ is: "open", channel, job, vector: Y.encodeStateVector(doc), seen, isNew });
    if (place.bar !== "" || place.station !== "") line.send({ is: "at", channel, ...place });
  }

  function apart(): void {
    isOpen = false;
    who = [];
    clearTimeout(again);
    if (state.is === "refused" && state.reason !== "not stored" && state.reason !== "full") return;
    say({ is: "apart", unsent: underWay !== undefined || waiting.length > 0 || state.is === "saving" });
  }

  function saw(seq: number): void {
    if (seq <= seen) return;
    seen = seq;
    onSeen?.(seq);
  }

  function send(update: Uint8Array): void {
    underWay = ++n;
    edits.sent(n);
    // what came meanwhile was not seen when it was made
    line.send({ is: "change", channel, n, seen: edits.since() ?? seen, update });
    if (state.is !== "saving") say({ is: "saving" });
  }

  function next(): void {
    isDue = false;
    if (!isOpen || underWay !== undefined || waiting.length === 0) return;
    const update = waiting.length === 1 ? (waiting[0] as Uint8Array) : Y.mergeUpdates(waiting);
    waiting = [];
    send(update);
  }

  function onUpdate(update: Uint8Array, from: unknown): void {
    if (from === origin) return;
    waiting.push(update);
    if (state.is === "kept") say({ is: "saving" });
    else say(state.is === "apart" ? { is: "apart", unsent: true } : state);
    if (isDue) return;
    isDue = true;
    // in one turn: a step that is tried and taken back is not seen elsewhere
    queueMicrotask(next);
  }

  function take(update: Uint8Array, by: string, since: number): void {
    const gave = edits.during(() => Y.applyUpdate(doc, update, origin), by, since);
    if (gave.length > 0) onGaveWay?.(gave);
  }

  function heard(message: FromShop): void {
    if (!("channel" in message) || message.channel !== channel) return;
    switch (message.is) {
      case "change":
        take(message.update, message.by, message.seen);
        saw(message.seq);
        if (state.is === "kept") say({ is: "kept", at: message.at });
        return;
      case "opened": {
        take(message.update, "", 0);
        saw(message.seq);
        isOpen = true;
        answer(true);
        // all that the shop lacks, whatever waited
        waiting = [];
        const update = Y.encodeStateAsUpdate(doc, message.vector);
        if (isNothing(update)) say({ is: "kept", at: message.at });
        else send(update);
        return;
      }
      case "acked":
        if (message.n !== underWay) return;
        underWay = undefined;
        edits.stored(message.n, message.seq);
        saw(message.seq);
        if (waiting.length > 0) next();
        else say({ is: "kept", at: message.at });
        return;
      case "refused":
        refused(message.reason);
        return;
      case "present":
        who = message.who;
        say(state);
        return;
      default:
    }
  }

  function refused(reason: Reason): void {
    if (isOpen) line.send({ is: "leave", channel });
    isOpen = false;
    underWay = undefined;
    answer(false);
    say({ is: "refused", reason });
    if (reason === "not stored" || reason === "full") again = setTimeout(open, AGAIN);
  }

  doc.on("update", onUpdate);
  const unhear = line.listen({
    heard,
    changed: (now) => (now === "up" ? open() : apart()),
  });
  open();

  return {
    state: () => state,
    present: () => who,
    unsent: edits.unsent,
    opened,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    at(station, bar) {
      if (place.station === station && place.bar === bar) return;
      place = { station, bar };
      line.send({ is: "at", channel, station, bar });
    },
    rejoin() {
      if (state.is === "refused" && state.reason === "gone") open();
    },
    leave() {
      doc.off("update", onUpdate);
      edits.stop();
      unhear();
      clearTimeout(again);
      line.send({ is: "leave", channel });
      listeners.clear();
    },
  };
}

/** Whether an update has neither content nor deletions; deletions that the other side has may well be in it. */
function isNothing(update: Uint8Array): boolean {
  const { structs, ds } = Y.decodeUpdate(update);
  return structs.length === 0 && ds.clients.size === 0;
}
