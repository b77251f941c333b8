import * as Y from "yjs";
import { base64 } from "../../../shared/index.ts";
import { RECORD } from "../../../words/index.ts";
import { at, type JobDocument, toJson } from "../document/index.ts";
import type { Damaged, Found, JobEntry, JobRecord } from "./port.ts";

/** A date beyond this cannot be written down (ECMA-262, 21.4.1.1: 8.64e15 ms either side of 1970). */
const LAST_DATE = 8.64e15;

/** An entry of the list from whatever stands there: what is no entry gets no name and no date. */
export function entryFrom(id: string, found: Found): JobEntry {
  const value = "value" in found ? (found.value as Partial<Record<keyof JobEntry, unknown>> | null) : {};
  const { name, changed, file } = value ?? {};
  const { name: from, digest } = (file ?? {}) as Partial<NonNullable<JobEntry["file"]>>;
  return {
    id,
    name: typeof name === "string" ? name : "",
    changed: typeof changed === "number" && changed >= 0 && changed <= LAST_DATE ? changed : 0,
    ...(typeof from === "string" && typeof digest === "string" ? { file: { name: from, digest } } : {}),
  };
}

/** A job as read from its record: its document, whole, or what is wrong with it and what can be read all the same. */
export type Read = { readonly doc: Y.Doc } | { readonly damaged: Damaged };

export function readRecord(id: string, record: JobRecord): Read {
  const { doc, lines } = docOf(record.updates);
  const document = documentOf(doc);
  const all = [...lines, ...("document" in document ? [] : [document.why])];
  if (all.length === 0) return { doc };
  const entry = entryFrom(id, record.entry);
  return {
    damaged: {
      entry: { ...entry, name: entry.name || nameOf(document) },
      lines: all,
      ...("document" in document ? document : {}),
      raw: rawText(entry, record),
    },
  };
}

const nameOf = (document: object): string => {
  const name = "document" in document ? at(document.document as JobDocument, ["name"]) : "";
  return typeof name === "string" ? name : "";
};

/** All updates that can be read, and a line for what cannot. */
function docOf(updates: readonly Found[]): { readonly doc: Y.Doc; readonly lines: readonly string[] } {
  const bad = new Map<number, string>();
  for (const [i, found] of updates.entries()) {
    if ("why" in found) bad.set(i, found.why);
    else if (!(found.value instanceof Uint8Array)) bad.set(i, RECORD.notBytes);
  }
  for (;;) {
    const doc = new Y.Doc();
    if (!applied(doc, updates, bad)) {
      // one that broke off half way leaves its half behind: once more without it
      doc.destroy();
      continue;
    }
    const lines = [...bad]
      .sort(([i], [j]) => i - j)
      .map(([i, why]) => RECORD.change(i + 1, updates.length, why));
    if (updates.length === 0) lines.push(RECORD.onlyName);
    if (doc.store.pendingStructs !== null || doc.store.pendingDs !== null) lines.push(RECORD.missing);
    return { doc, lines };
  }
}

/** Applies all updates but the bad ones; false where one more was found to be bad, and noted. */
function applied(doc: Y.Doc, updates: readonly Found[], bad: Map<number, string>): boolean {
  const before = bad.size;
  doc.transact(() => {
    for (const [i, found] of updates.entries()) {
      if (bad.has(i)) continue;
      try {
        const update = (found as { readonly value: Uint8Array }).value;
        // after the first one every other is tried by itself first, so that many need not as many rounds
        if (bad.size > before) Y.decodeUpdate(update);
        else Y.applyUpdate(doc, update);
      } catch {
        bad.set(i, RECORD.badBytes);
      }
    }
  });
  return bad.size === before;
}

/** The job in a document; its parts may be anything where the record is damaged. */
function documentOf(doc: Y.Doc): { readonly document: JobDocument } | { readonly why: string } {
  try {
    const document = toJson(doc);
    return Object.keys(document).length > 0 ? { document } : { why: RECORD.nothing };
  } catch {
    return { why: RECORD.noJob };
  }
}

/** The record as text: what is known of the entry, and every update's bytes in base 64 (RFC 4648, section 4). */
function rawText(entry: JobEntry, { entry: found, updates }: JobRecord): string {
  const raw = {
    format: "tubewright raw record",
    version: 1,
    entry: "value" in found ? plain(found.value) : { id: entry.id, unreadable: found.why },
    updates: updates.map((one) =>
      "why" in one
        ? { unreadable: one.why }
        : one.value instanceof Uint8Array
          ? base64(one.value)
          : { other: plain(one.value) },
    ),
  };
  return `${JSON.stringify(raw, null, 2)}\n`;
}

function plain(value: unknown): unknown {
  try {
    return JSON.parse(JSON.stringify(value ?? null));
  } catch {
    return String(value);
  }
}
