import {
  at,
  type Command,
  type JobDocument,
  type Json,
  type JsonPath,
} from "../../src/app/model/document/index.ts";
import { readJob } from "../../src/core/job/index.ts";
import { problemLine } from "../../src/words/index.ts";

/** A place of a job that a page wrote, key by key. */
export type Written = readonly string[];

/** What pages write, step by step: each step is a command that a page runs, on the job as the step before left it. */
export class Steps {
  readonly written = new Map<string, Written>();
  /** Fields whose every sample was refused, with the first line of the last refusal. */
  readonly refused: string[] = [];

  constructor(public document: JobDocument) {}

  /** Does a command; what comes of it must be a job. The document goes on from it. */
  run(command: Command, says = ""): boolean {
    const done = command.edit(this.document);
    const lines = done.ok ? problems(done.document) : done.lines;
    if (!done.ok || lines.length > 0) {
      if (says !== "") this.refused.push(`${says}: ${lines[0]}`);
      return false;
    }
    this.take(done.document);
    return true;
  }

  /** Does a command and goes on as if it had not been done: the next field is asked of the same job. */
  look(...commands: readonly Command[]): boolean {
    const before = this.document;
    const did = commands.some((command) => this.run(command));
    this.document = before;
    return did;
  }

  /** A job that a page made of the one before. */
  take(next: JobDocument): void {
    for (const path of changed(this.document, next)) this.written.set(path.join("\n"), path);
    this.document = next;
  }
}

const problems = (document: JobDocument): readonly string[] => {
  const read = readJob(document);
  return read.ok ? [] : read.problems.map((p) => problemLine(p));
};

/** The figures that are in `after` and are not, or are otherwise, in `before`. */
function changed(before: Json | undefined, after: Json, path: Written = []): readonly Written[] {
  if (typeof after !== "object" || after === null) return before === after ? [] : [path];
  return Object.keys(after).flatMap((key) =>
    changed(
      at(before ?? null, [Array.isArray(after) ? Number(key) : key]),
      at(after, [Array.isArray(after) ? Number(key) : key]) as Json,
      [...path, key],
    ),
  );
}

/** Whether what was written is at a field of the schema: the same keys, any name and any number where it has "*". */
export function isAt(written: Written, field: string): boolean {
  const keys = field.split(".");
  return keys.length === written.length && keys.every((key, i) => key === "*" || key === written[i]);
}

/** The fields that nothing was written to. */
export const unasked = (fields: Iterable<string>, all: readonly Written[]): readonly string[] => {
  const byLength = new Map<number, Written[]>();
  for (const one of all) byLength.set(one.length, [...(byLength.get(one.length) ?? []), one]);
  return [...fields].filter(
    (field) => !(byLength.get(field.split(".").length) ?? []).some((written) => isAt(written, field)),
  );
};

export type { Command, JobDocument, Json, JsonPath };
