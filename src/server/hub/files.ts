import { createHash, randomUUID } from "node:crypto";
import { basename } from "node:path";
import * as Y from "yjs";
import { type JobProblem, readJob, utf8Problem } from "../../core/job/index.ts";
import {
  entries,
  fromJson,
  isObject,
  type JobDocument,
  type Json,
  jobText,
  slug,
  toJson,
  write,
} from "../../shared/index.ts";
import { FILED, problemLine } from "../../words/index.ts";
import { type ShopStore, shelf } from "../store/index.ts";
import type { Folder } from "./folder.ts";
import type { Author, Jobs } from "./jobs.ts";
import { copyOf } from "./load.ts";
import { begin, renew } from "./records.ts";

/** A job's file is written this long after the last change, and at the latest so long after the first (ms). */
const QUIET = 2000;
const LATEST = 10_000;
/** As many changes of a job as there may be. */
const ALL = 10_000_000;

/** The file of a job: its name, the digest of what was last read or written there, and what the job was then. */
interface Filed {
  readonly file: string;
  readonly digest: string;
  /** About to be written: after a crash the file holds this or what was there before. */
  readonly next?: string;
  readonly seq: number;
}

/** What was not taken in from the folder, or not written to it. */
export interface Notice {
  readonly file: string;
  readonly at: number;
  readonly text: string;
}

export interface Files {
  /** Takes in what the folder holds, and writes what it lacks. */
  start(): Promise<void>;
  /** A job changed: its file follows. */
  changed(id: string): void;
  /** A job was deleted, or is back. */
  listed(id: string): Promise<void>;
  notices(): readonly Notice[];
  /** Looks at the folder now. */
  look(): Promise<void>;
  /** Writes what waits. */
  close(): Promise<void>;
}

export interface FilesPorts {
  readonly folder: Folder;
  readonly store: ShopStore;
  readonly jobs: Jobs;
  readonly now: () => number;
  /** The list of notices, or of jobs, is another one. */
  readonly news: (of: "notices" | "jobs") => void;
  readonly quiet?: number;
}

/** The device that changes from the folder are of. */
export const FOLDER_DEVICE = "folder";

/** Keeps every job as a plain file in the folder, and takes in what another hand changes there. */
export function filesIn({ folder, store, jobs, now, news, quiet = QUIET }: FilesPorts): Files {
  const records = shelf(store, "job");
  const filed = new Map<string, Filed>();
  const signs = new Map<string, string>();
  const notices = new Map<string, Notice>();
  /** Files that do not pass, with the digest of what was looked at: they are left as they are. */
  const left = new Map<string, string>();
  const due = new Map<string, { readonly since: number; readonly timer: ReturnType<typeof setTimeout> }>();
  let turn: Promise<void> = Promise.resolve();
  let stopWatching = (): void => {};

  /** One thing after another: nothing reads a file that is being written. */
  function inTurn(work: () => Promise<void>, file = ""): Promise<void> {
    turn = turn.then(work).catch((error: unknown) => notice(file, FILED.refused(codeOf(error))));
    return turn;
  }

  function notice(file: string, text?: string): void {
    if (notices.get(file)?.text === text) return;
    if (text === undefined) notices.delete(file);
    else notices.set(file, { file, at: now(), text });
    news("notices");
  }

  const keepNotes = (): Promise<void> => folder.writeNotes(JSON.stringify(Object.fromEntries(filed)));
  const author = (file: string, seen: number): Author => ({ device: FOLDER_DEVICE, name: file, seen });
  const idOf = (file: string): string | undefined => [...filed].find(([, f]) => f.file === file)?.[0];

  /** A file that is not what was last read or written. */
  async function takeIn(name: string, bytes: Uint8Array, id: string | undefined): Promise<void> {
    const digest = digestOf(bytes);
    if (left.get(name) === digest) return;
    const read = readBytes(bytes);
    if ("why" in read) {
      left.set(name, digest);
      notice(name, FILED.left(name, read.why));
      return;
    }
    left.delete(name);
    notice(name);
    const known = id === undefined ? undefined : filed.get(id);
    const job = id ?? randomUUID();
    if (!known) await begin(store, job, now());
    const update = known
      ? await editOf(job, known, read.document)
      : Y.encodeStateAsUpdate(fromJson(read.document));
    if (update) {
      const fate = await jobs.commit(job, author(name, known?.seq ?? 0), update);
      if (!("seq" in fate)) throw new Error(fate.why);
    }
    const taken = await jobs.get(job);
    if (!known && (await renew(store, taken, name))) news("jobs");
    filed.set(job, { file: name, digest, seq: taken.seq });
    await keepNotes();
  }

  /** The change that makes the job what the file says, as one made to the job as it was when the file was last in step. */
  async function editOf(id: string, known: Filed, document: JobDocument): Promise<Uint8Array | undefined> {
    const then = (await stateAt(id, known.seq)) ?? copyOf((await jobs.get(id)).doc);
    const before = Y.encodeStateVector(then);
    if (jobText(toJson(then)) === jobText(document)) return undefined;
    write(then, document, FOLDER_DEVICE);
    return Y.encodeStateAsUpdate(then, before);
  }

  async function stateAt(id: string, seq: number): Promise<Y.Doc | undefined> {
    if ((await jobs.get(id)).seq === seq) return undefined;
    const rows = await store.history(id, 0, ALL);
    const doc = new Y.Doc();
    for (const row of rows) if (row.seq <= seq) Y.applyUpdate(doc, row.update);
    const isWhole = doc.store.pendingStructs === null && doc.store.pendingDs === null;
    return isWhole ? doc : undefined;
  }

  async function writeOut(id: string): Promise<void> {
    const record = await records.get(id);
    if (!record || record.deleted !== undefined) return;
    const job = await jobs.get(id);
    const known = filed.get(id) ?? { file: await freeName(job.doc), digest: "", seq: 0 };
    if (await renew(store, job, known.file)) news("jobs");
    const bytes = await folder.read(known.file);
    if (bytes && ![known.digest, known.next].includes(digestOf(bytes))) {
      await takeIn(known.file, bytes, id);
      // it stays as its owner left it until it passes
      if (left.has(known.file)) return;
    }
    const text = jobText(toJson(job.doc));
    const next = digestOf(new TextEncoder().encode(text));
    if (bytes && saysThat(bytes, text)) {
      // its owner's own way of writing it stays
      filed.set(id, { file: known.file, digest: digestOf(bytes), seq: job.seq });
      return;
    }
    // noted first: after a crash what the file holds is known to be ours, whichever it is
    filed.set(id, { ...known, next });
    await keepNotes();
    await folder.write(known.file, text);
    filed.set(id, { file: known.file, digest: next, seq: job.seq });
    await keepNotes();
    notice(known.file);
  }

  async function freeName(doc: Y.Doc): Promise<string> {
    const name = toJson(doc).name;
    const base = nameFrom(typeof name === "string" ? name : "");
    const taken = new Set(
      [...(await folder.names()).keys(), ...[...filed.values()].map((f) => f.file)].map((n) =>
        n.toLowerCase(),
      ),
    );
    let file = `${base}.json`;
    for (let n = 2; taken.has(file.toLowerCase()); n++) file = `${base}-${n}.json`;
    return file;
  }

  async function lookAround(): Promise<void> {
    const found = await folder.names();
    for (const [name, sign] of found) {
      if (signs.get(name) === sign) continue;
      const bytes = await folder.read(name);
      if (!bytes) continue;
      const id = idOf(name);
      const known = id === undefined ? undefined : filed.get(id);
      if (known && [known.digest, known.next].includes(digestOf(bytes))) {
        if (notices.has(name)) notice(name);
        left.delete(name);
      } else {
        await takeIn(name, bytes, id);
        if (id !== undefined && !left.has(name)) changed(id);
      }
      signs.set(name, sign);
    }
    for (const name of signs.keys()) {
      if (found.has(name)) continue;
      signs.delete(name);
      left.delete(name);
      if (notices.has(name)) notice(name);
    }
  }

  function changed(id: string): void {
    const waits = due.get(id);
    const since = waits?.since ?? now();
    clearTimeout(waits?.timer);
    const timer = setTimeout(
      () => {
        due.delete(id);
        void inTurn(() => writeOut(id), filed.get(id)?.file);
      },
      Math.max(0, Math.min(quiet, since + LATEST - now())),
    );
    due.set(id, { since, timer });
  }

  return {
    async start() {
      const notes = parsed((await folder.readNotes()) ?? "{}");
      for (const [id, f] of Object.entries(notes)) filed.set(id, f);
      await inTurn(lookAround);
      for (const [id, record] of await records.all()) {
        if (!record.empty && record.deleted === undefined) await inTurn(() => writeOut(id));
      }
      stopWatching = folder.watch(() => void inTurn(lookAround));
    },
    changed,
    listed: (id) =>
      inTurn(async () => {
        const record = await records.get(id);
        const known = filed.get(id);
        if (record && record.deleted === undefined) await writeOut(id);
        else if (known) {
          await folder.putAway(known.file);
          filed.delete(id);
          await keepNotes();
        }
      }),
    notices: () => [...notices.values()],
    look: () => inTurn(lookAround),
    async close() {
      stopWatching();
      const waiting = [...due];
      due.clear();
      for (const [id, { timer }] of waiting) {
        clearTimeout(timer);
        void inTurn(() => writeOut(id), filed.get(id)?.file);
      }
      await turn;
    },
  };
}

const digestOf = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");
const codeOf = (error: unknown): string => (error as NodeJS.ErrnoException).code ?? (error as Error).message;

/** A job file's document, or the first thing that is wrong with it. */
function readBytes(bytes: Uint8Array): { readonly document: JobDocument } | { readonly why: string } {
  const coded = utf8Problem(bytes);
  const read = coded ? undefined : readJob(new TextDecoder().decode(bytes));
  if (read?.ok) return { document: read.document as JobDocument };
  return { why: problemLine((coded ?? read?.problems[0]) as JobProblem) };
}

/** Whether a file says what a job's text does, however it is written. */
function saysThat(bytes: Uint8Array, text: string): boolean {
  const read = readBytes(bytes);
  return "document" in read && jobText(read.document) === text;
}

/** What a job's file is called: as its name, without what would hide it. */
const nameFrom = (name: string): string => slug(name).replace(/^[-.]+|[-.]+$/g, "") || "job";

/** The notes of the shop's files; whatever else stands there counts for nothing. */
function parsed(text: string): Readonly<Record<string, Filed>> {
  let notes: Json;
  try {
    notes = JSON.parse(text) as Json;
  } catch {
    return {};
  }
  const isFiled = (f: Json): boolean =>
    isObject(f) &&
    typeof f.file === "string" &&
    basename(f.file) === f.file &&
    typeof f.digest === "string" &&
    Number.isSafeInteger(f.seq);
  const good = entries(notes).filter(([, f]) => isFiled(f));
  return Object.fromEntries(good) as unknown as Readonly<Record<string, Filed>>;
}
