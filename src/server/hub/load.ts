import * as Y from "yjs";
import type { Kept } from "../store/index.ts";

/** A job in the memory of this server: what its document is, and the number and time of its last stored change. */
export interface Loaded {
  readonly doc: Y.Doc;
  seq: number;
  at: number;
}

/**
 * A job from what is stored of it. A change that cannot be applied is left out, and the others still count: nothing
 * unreadable is ever stored (`isUpdate`), so that it would have been spoilt on the disk.
 */
export function loadedFrom(kept: Kept | undefined): Loaded {
  const updates = [...(kept?.base ? [kept.base] : []), ...(kept?.log ?? [])];
  const last = updates.at(-1);
  return { doc: docOf(updates.map((u) => u.update)), seq: last?.seq ?? 0, at: last?.at ?? 0 };
}

function docOf(updates: readonly Uint8Array[]): Y.Doc {
  const whole = new Y.Doc();
  try {
    whole.transact(() => {
      for (const update of updates) Y.applyUpdate(whole, update);
    });
    return whole;
  } catch {
    // one that broke off half way leaves its half behind: once more without what cannot be applied
    const doc = new Y.Doc();
    for (const update of updates.filter(isUpdate)) Y.applyUpdate(doc, update);
    return doc;
  }
}

/** Another document with all that this one has. */
export function copyOf(doc: Y.Doc): Y.Doc {
  const copy = new Y.Doc();
  Y.applyUpdate(copy, Y.encodeStateAsUpdate(doc));
  return copy;
}

/** Whether bytes are a change of a document: what cannot even be applied to an empty one never enters the log. */
export function isUpdate(update: Uint8Array): boolean {
  try {
    const { structs, ds } = Y.decodeUpdate(update);
    if (structs.some((s) => !Number.isSafeInteger(s.id.clock + s.length))) return false;
    if (structs.length === 0 && ds.clients.size === 0) return true;
    const doc = new Y.Doc();
    Y.applyUpdate(doc, update);
    doc.destroy();
    return true;
  } catch {
    return false;
  }
}

/** Whether a change says nothing that the document does not have already. */
export function isKnown(doc: Y.Doc, update: Uint8Array): boolean {
  const { structs, ds } = Y.decodeUpdate(update);
  const has = (client: number): number => Y.getState(doc.store, client);
  if (structs.some(({ id, length }) => id.clock + length > has(id.client))) return false;
  if (ds.clients.size === 0) return true;
  const deleted = Y.createDeleteSetFromStructStore(doc.store);
  return [...ds.clients].every(([client, ranges]) =>
    ranges.every(({ clock, len }) => isCovered(deleted.clients.get(client) ?? [], clock, clock + len)),
  );
}

/** Whether ranges, in order and apart, hold all from `from` up to `to`. */
function isCovered(
  ranges: readonly { readonly clock: number; readonly len: number }[],
  from: number,
  to: number,
): boolean {
  let at = from;
  for (const { clock, len } of ranges) if (clock <= at && at < clock + len) at = clock + len;
  return at >= to;
}
