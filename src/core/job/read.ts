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
export const readJob = (input: unknown): JobRead => readText(input, judged);

/** A job that may be of a newer version than this program: then it is for reading only, and never written back. */
export type AnyVersionRead = JobRead & {
  /** Of a newer version: which, and the document as it was written. */
  readonly newer?: Newer;
};

interface Newer {
  readonly version: number;
  readonly document: unknown;
}

/**
 * As `readJob`, but a job that a newer Tubewright wrote is read too, where this one knows all that is in it: a key
 * keeps its meaning from one version to the next (`upgrade.ts`), so what is known counts as ever. What is unknown here
 * may change any figure, so with it there is none: the problems then begin with the version, and name every such key.
 * Its document stays as it was written, version and all.
 */
export const readAnyVersion = (input: unknown): AnyVersionRead => readText(input, judgedOfAnyVersion);

function readText<Read extends JobRead>(
  input: unknown,
  judge: (document: unknown) => (Read & { readonly ok: true }) | Unread,
): Read | (JobRead & { readonly ok: false; readonly newer?: Newer }) {
  const parsed = typeof input === "string" ? parseJson(input) : undefined;
  if (parsed && !parsed.ok) return parsed;
  const read = judge(parsed ? parsed.document : input);
  if (read.ok) return read;
  const { faults, ...rest } = read;
  const problems =
    typeof input === "string"
      ? located(input, faults)
      : faults.map(({ place, code, values }) => ({ place, code, values }));
  return { ...rest, problems };
}

type Readable = JobRead & { readonly ok: true };
interface Unread {
  readonly ok: false;
  readonly faults: readonly Fault[];
  readonly newer?: Newer;
}

function judgedOfAnyVersion(input: unknown): (Readable & { readonly newer?: Newer }) | Unread {
  const read = judged(input);
  const version = own(input, "version");
  if (read.ok || typeof version !== "number" || !(version > VERSION)) return read;
  if (own(input, "format") !== FORMAT || plainProblems(input).length > 0) return read;
  const asOurs = judged({ ...(input as object), version: VERSION });
  const newer = { version, document: input };
  return asOurs.ok
    ? { ...asOurs, document: input, newer }
    : { ok: false, faults: [...read.faults, ...asOurs.faults], newer };
}

function judged(input: unknown): Readable | Unread {
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
