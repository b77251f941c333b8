/** One thing that keeps a document from being a job; all texts are one line and never empty. */
export interface JobProblem {
  /** Where: `bars.harness.path[0].on`, `line 3, column 7` in text that is no JSON, `job` for the whole. */
  readonly place: string;
  /** What is wrong there and what would be right. */
  readonly message: string;
  /** The same place in the file that was read: `line 3, column 7`. */
  readonly at?: string;
}

/** A problem as the checks of a document make it. */
export interface Fault extends JobProblem {
  readonly path: Path;
  /** The key that the path ends with is wrong, not its value. */
  readonly inKey?: true;
}

/** The problem as the one line that a person reads. */
export const problemLine = ({ place, message, at }: JobProblem): string =>
  at === undefined ? `${place}: ${message}` : `${place}: ${message} (${at})`;

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

export const problem = (path: Path, message: string): Fault => ({
  place: placeOf(path),
  message: visible(message),
  path,
});

/** A problem with the key that a path ends with. */
export const keyProblem = (path: Path, message: string): Fault => ({
  ...problem(path, message),
  inKey: true,
});
