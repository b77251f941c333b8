import * as Y from "yjs";
import {
  type AnyVersionRead,
  type JobProblem,
  type JobRead,
  readAnyVersion,
} from "../../../core/job/index.ts";
import { type JobDocument, rootOf, share, toJson, write } from "../../../shared/index.ts";
import { problemOnPage, readOnly } from "../../../words/index.ts";
import type { Command, Outcome, Refusal } from "./command.ts";
import { nameOf } from "./command.ts";
import { thingAt } from "./names.ts";

/** What an editor shows of itself; a new object after every change. */
export interface EditorState {
  /** As it stands, lengths as typed. Parts that a change left alone are the same objects as before. */
  readonly document: JobDocument;
  /** The job in it, or what keeps it from being one (two people's edits may not go together). */
  readonly read: AnyVersionRead;
  /** Names of the steps that undo and redo would take. */
  readonly undo?: string;
  readonly redo?: string;
  /** What made it as it is; the same object until the next step, so that one step is told from another. */
  readonly did: Did;
}

/** The last step: an edit of this device, one taken back or taken again, or what came from another device or window. */
export type Did =
  | { readonly is: "opened" }
  | { readonly is: "undo" }
  | { readonly is: "others" }
  | { readonly is: "edit" | "redo"; readonly name: string };

/** One open job: every change goes through `run`, and every change can be undone. */
export interface Editor {
  readonly doc: Y.Doc;
  state(): EditorState;
  /**
   * Does a command in one step of undo. Refused, with nothing changed, where the result would not pass `readJob`, and
   * where a newer version of the program wrote the job.
   * Commands that share a `gesture` (one drag of a finger) and follow each other are one step, named by the last.
   */
  run(command: Command, gesture?: string): Outcome;
  /** What a command would make of the job; nothing is changed. Refused as `run` would refuse it. */
  peek(command: Command): Seen;
  /** What undo or redo would make of the job; nothing is changed. */
  peekStep(which: "undo" | "redo"): Seen;
  /** Takes the last step of this device back, or takes it again; refused where others' edits since do not allow it. */
  undo(): Outcome;
  redo(): Outcome;
  subscribe(listener: () => void): () => void;
  close(): void;
}

/** The job as it would be. */
export type Seen = (Pick<EditorState, "document" | "read"> & { readonly ok: true }) | Refusal;

const NAME = "name";

/** `refuses`: lines that say why an edit may not be done on this device. */
export function editorOf(
  doc: Y.Doc,
  refuses: (before: JobDocument, after: JobDocument) => readonly string[] = () => [],
): Editor {
  const origin = {};
  /** Of what is written without being a step. */
  const aside = {};
  const listeners = new Set<() => void>();
  const steps = new Y.UndoManager(rootOf(doc), {
    trackedOrigins: new Set([origin]),
    // Steps end where a command says so, never by the clock.
    captureTimeout: Number.POSITIVE_INFINITY,
  });
  let doing = "";
  let gestureNow: string | undefined;
  let did: Did = { is: "opened" };
  let state = stateOf(toJson(doc));

  steps.on("stack-item-added", ({ stackItem }: { stackItem: Y.UndoManager["undoStack"][number] }) => {
    stackItem.meta.set(NAME, steps.currStackItem?.meta.get(NAME) ?? doing);
  });

  function stateOf(document: JobDocument, read: AnyVersionRead = readAnyVersion(document)): EditorState {
    const [undo, redo] = [steps.undoStack, steps.redoStack].map((s) => s.at(-1)?.meta.get(NAME) as string);
    return {
      document,
      read,
      did,
      ...(undo === undefined ? {} : { undo }),
      ...(redo === undefined ? {} : { redo }),
    };
  }

  function show(next: EditorState): void {
    state = next;
    for (const listener of listeners) listener();
  }

  const onUpdate = (_update: Uint8Array, from: unknown): void => {
    if (from === origin || from === aside || from === steps) return;
    gestureNow = undefined;
    did = { is: "others" };
    show(stateOf(share(state.document, toJson(doc))));
  };
  doc.on("update", onUpdate);

  /** What a newer version of the program wrote is never written back: it may say what this one does not know. */
  function readOnlyHere(): Refusal | undefined {
    const { newer } = state.read;
    return newer && { ok: false, lines: [readOnly(newer.version)] };
  }

  function peek(command: Command): Seen {
    const refused = readOnlyHere();
    if (refused) return refused;
    const edit = command.edit(state.document);
    if (!edit.ok) return edit;
    const next = share(state.document, edit.document);
    if (next === state.document) return { ok: true, document: next, read: state.read };
    const lines = refuses(state.document, next);
    if (lines.length > 0) return { ok: false, lines };
    const read = readAnyVersion(next);
    if (!read.ok && !mends(state.read, read)) return { ok: false, lines: linesOf(next, read.problems) };
    return { ok: true, document: next, read };
  }

  function run(command: Command, gesture?: string): Outcome {
    const seen = peek(command);
    if (!seen.ok) return seen;
    const { document: next, read } = seen;
    if (next === state.document) return { ok: true, changed: false };
    if (command.isAside) {
      write(doc, next, aside);
      show(stateOf(next, read));
      return { ok: true, changed: true };
    }
    const goesOn = gesture !== undefined && gesture === gestureNow && steps.undoStack.length > 0;
    if (!goesOn) steps.stopCapturing();
    gestureNow = gesture;
    doing = nameOf(command, state.document);
    write(doc, next, origin);
    if (goesOn) steps.undoStack.at(-1)?.meta.set(NAME, doing);
    did = { is: "edit", name: doing };
    show(stateOf(next, read));
    return { ok: true, changed: true };
  }

  function peekStep(which: "undo" | "redo"): Seen {
    gestureNow = undefined;
    const refused = readOnlyHere();
    if (refused) return refused;
    const { document, read } = state;
    // there is no other way to know: the step is taken, read, and taken back
    if (!steps[which]()) return { ok: true, document, read };
    const next = share(document, toJson(doc));
    steps[which === "undo" ? "redo" : "undo"]();
    return { ok: true, document: next, read: readAnyVersion(next) };
  }

  function step(there: "undo" | "redo", back: "undo" | "redo"): Outcome {
    gestureNow = undefined;
    const refused = readOnlyHere();
    if (refused) return refused;
    const name = (there === "undo" ? state.undo : state.redo) ?? "";
    if (!steps[there]()) return { ok: true, changed: false };
    const next = stateOf(share(state.document, toJson(doc)));
    if (next.read.ok || !state.read.ok) {
      did = there === "undo" ? { is: "undo" } : { is: "redo", name };
      show({ ...next, did });
      return { ok: true, changed: true };
    }
    steps[back]();
    show(stateOf(state.document, state.read));
    return { ok: false, lines: linesOf(next.document, next.read.problems) };
  }

  return {
    doc,
    state: () => state,
    peek,
    peekStep,
    run,
    undo: () => step("undo", "redo"),
    redo: () => step("redo", "undo"),
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close() {
      doc.off("update", onUpdate);
      steps.destroy();
      listeners.clear();
    },
  };
}

const linesOf = (document: JobDocument, problems: readonly JobProblem[]): readonly string[] =>
  problems.map((problem) => problemOnPage(problem, thingAt(document, problem.place)));

/** A job that others' edits broke may be mended one problem at a time. */
const mends = (before: JobRead, after: JobRead & { readonly ok: false }): boolean =>
  !before.ok && after.problems.length < before.problems.length;
