import type { Quantity } from "../findings/index.ts";

/** Everything that can be wrong with a document: the closed list. */
export type ProblemCode =
  | "stopped"
  | "missing"
  | "missing-choice"
  | "not-among"
  | "list-too-short"
  | "list-too-long"
  | "below-least"
  | "above-most"
  | "not-above"
  | "not-below"
  | "wrong-kind"
  | "unreadable"
  | "unknown-key"
  | "missing-shape"
  | "wrong-shape"
  | "own-host"
  | "circle"
  | "length-not-above"
  | "length-below"
  | "length-above"
  | "no-length"
  | "json-control"
  | "json-open-quote"
  | "json-comma"
  | "json-expected"
  | "json-ends"
  | "file-empty"
  | "json-twice"
  | "no-json"
  | "too-deep"
  | "class-no-json"
  | "job-is"
  | "other-format"
  | "newer-version"
  | "too-much-wrong"
  | "one-point"
  | "over-nothing"
  | "mark-past-reading"
  | "no-such"
  | "mirror-of-mirror"
  | "coped-to-itself"
  | "id-empty"
  | "id-kept"
  | "id-blank"
  | "id-long"
  | "no-bore"
  | "no-direction"
  | "along-normal"
  | "zero-along-out"
  | "out-not-opposite"
  | "error-no-place"
  | "on-nowhere"
  | "on-twice"
  | "near-alone"
  | "also-host"
  | "listed-twice"
  | "inner-landing"
  | "first-step"
  | "follow-nodes"
  | "backwards"
  | "clr-small"
  | "hidden-character"
  | "text-long"
  | "utf16"
  | "no-utf8";

/** What is wrong, as a code with what its sentence names. */
export interface Wrong {
  readonly code: ProblemCode;
  readonly values: Readonly<Record<string, Quantity>>;
}

/** One thing that keeps a document from being a job. Its sentence is in words; all texts in it are one line. */
export interface JobProblem extends Wrong {
  /** Where: `bars.harness.path[0].on`, `line 3, column 7` in text that is no JSON, `job` for the whole. */
  readonly place: string;
  /** The same place in the file that was read: `line 3, column 7`. */
  readonly at?: string;
}

/** A problem as the checks of a document make it. */
export interface Fault extends JobProblem {
  readonly path: Path;
  /** The key that the path ends with is wrong, not its value. */
  readonly inKey?: true;
}

/** Keys and indices from the document's top. */
export type Path = readonly (string | number)[];

const LONGEST_QUOTE = 60;

/**
 * What no text of a job may hold, since it cannot be seen and changes what is seen: control characters (Cc),
 * direction and other format characters (Cf: embeddings, isolates, zero widths, soft hyphens), line and paragraph
 * separators, halves of a character, and codes that are none. Categories: Unicode Standard 15.0, 4.5, table 4-4.
 */
const HIDDEN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}\p{Noncharacter_Code_Point}]/u;

/** The first such character of a text. */
export const hiddenIn = (text: string): string | undefined => HIDDEN.exec(text)?.[0];

/** U+202E */
export const codePoint = (code: number): string => `U+${code.toString(16).toUpperCase().padStart(4, "0")}`;

/** Such characters as their codes, so that a line about them is one line and shows them. */
const visible = (text: string): string =>
  text.replace(new RegExp(HIDDEN, "gu"), (char) =>
    [...Array(char.length).keys()]
      .map((i) => `\\u${char.charCodeAt(i).toString(16).padStart(4, "0")}`)
      .join(""),
  );

/** A text of the document in double quotes, on one line, cut short where it is long. */
export function quote(text: string): string {
  const short = text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE - 1)}…` : text;
  return visible(JSON.stringify(short));
}

/** `bars.harness.path[0].on`; a key with other than letters, digits, - and _ stands as `tubes["45x2.5"]`. */
export function placeOf(path: Path): string {
  const text = path.reduce<string>((place, step) => {
    if (typeof step === "number") return `${place}[${step}]`;
    if (!/^[\p{L}\p{N}_-]{1,60}$/u.test(step)) return `${place}[${quote(step)}]`;
    return place === "" ? step : `${place}.${step}`;
  }, "");
  return text === "" ? "job" : text;
}

export const problem = (path: Path, code: ProblemCode, values: Wrong["values"] = {}): Fault => ({
  place: placeOf(path),
  path,
  ...wrong(code, values),
});

/** What is wrong, its texts such that they can be seen. */
export const wrong = (code: ProblemCode, values: Wrong["values"] = {}): Wrong => ({
  code,
  values: seen(values),
});

const seen = (values: Wrong["values"]): Wrong["values"] =>
  Object.fromEntries(Object.entries(values).map(([name, value]) => [name, seenIn(value)]));

function seenIn(value: Quantity): Quantity {
  if ("text" in value) return { text: visible(value.text) };
  if ("list" in value) return { ...value, list: value.list.map(seenIn) };
  return "phrase" in value && value.values ? { ...value, values: seen(value.values) } : value;
}

/** A problem with the key that a path ends with. */
export const keyProblem = (path: Path, code: ProblemCode, values: Wrong["values"] = {}): Fault => ({
  ...problem(path, code, values),
  inKey: true,
});
