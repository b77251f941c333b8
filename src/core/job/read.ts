import { count, text } from "../findings/index.ts";
import { circleProblems } from "./circle.ts";
import { located, parseJson } from "./json.ts";
import { normalise } from "./normalise.ts";
import { isDict, own } from "./peek.ts";
import { plainProblems } from "./plain.ts";
import { type Fault, type JobProblem, problem, quote } from "./problem.ts";
import { problemsOf } from "./problems.ts";
import { referenceProblems, referencesOf } from "./references.ts";
import { ruleProblems } from "./rules.ts";
import { documentSchema, type FileJob, VERSION } from "./schema.ts";
import { Suggester } from "./suggest.ts";
import { textProblems } from "./texts.ts";
import type { Job } from "./types.ts";
import { upgraded } from "./upgrade.ts";

export type JobRead =
  /** The job, and the document as typed but of the present version, which is what an editor changes and keeps. */
  | { readonly ok: true; readonly job: Job; readonly document: unknown }
  /** Everything that is wrong, at least one. */
  | { readonly ok: false; readonly problems: readonly JobProblem[] };

const FORMAT = "tubewright job";

/** What makes all other checks pointless: no object, another format, another version. */
function notOurs(document: unknown): Fault | undefined {
  if (!isDict(document)) return problem([], "job-is");
  const [format, version] = [own(document, "format"), own(document, "version")];
  if (typeof format === "string" && format !== FORMAT)
    return problem(["format"], "other-format", { format: text(quote(format)), ours: text(quote(FORMAT)) });
  if (typeof version === "number" && version > VERSION)
    return problem(["version"], "newer-version", { version: text(String(version)), ours: count(VERSION) });
  return undefined;
}

type Shape = { readonly data?: FileJob; readonly problems: readonly Fault[] };

function readShape(document: unknown, suggester: Suggester): Shape {
  try {
    const shape = documentSchema.safeParse(document);
    if (shape.success) return { data: shape.data, problems: [] };
    return { problems: problemsOf(shape.error.issues, document, suggester) };
  } catch (error) {
    // zod hands lists of issues on as arguments, and a hundred thousand of them exhaust the stack
    if (!(error instanceof RangeError)) throw error;
    return { problems: [problem([], "too-much-wrong")] };
  }
}

/**
 * The job in a file's text (JSON), or in a document already parsed.
 *
 * Lengths come out in millimetres, angles in degrees, defaults filled in, directions of length 1. Any input gets an
 * answer and none throws: a job, or every problem that was found, each with the place and what would be right.
 */
export function readJob(input: unknown): JobRead {
  if (typeof input !== "string") {
    const read = readDocument(input);
    return read.ok
      ? read
      : { ok: false, problems: read.faults.map(({ place, code, values }) => ({ place, code, values })) };
  }
  const parsed = parseJson(input);
  if (!parsed.ok) return parsed;
  const read = readDocument(parsed.document);
  return read.ok ? read : { ok: false, problems: located(input, read.faults) };
}

type Judged = Extract<JobRead, { ok: true }> | { readonly ok: false; readonly faults: readonly Fault[] };

function readDocument(input: unknown): Judged {
  const document = upgraded(input);
  const other = notOurs(document);
  if (other) return { ok: false, faults: [other] };
  const odd = plainProblems(document);
  if (odd.length > 0) return { ok: false, faults: odd };

  const suggester = new Suggester();
  const shape = readShape(document, suggester);
  const references = referencesOf(document);
  const faults = [
    ...textProblems(document),
    ...shape.problems,
    ...ruleProblems(document),
    ...referenceProblems(document, references, suggester),
    ...circleProblems(references),
  ];
  return faults.length === 0 && shape.data
    ? { ok: true, job: normalise(shape.data), document }
    : { ok: false, faults };
}
