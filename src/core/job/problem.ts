/** One thing that keeps a document from being a job; both texts are one line and never empty. */
export interface JobProblem {
  /** Where: `bars.harness.path[0].on`, `line 3, column 7` in text that is no JSON, `job` for the whole. */
  readonly place: string;
  /** What is wrong there and what would be right. */
  readonly message: string;
}

/** The problem as the one line that a person reads. */
export const problemLine = (problem: JobProblem): string => `${problem.place}: ${problem.message}`;

/** Keys and indices from the document's top. */
export type Path = readonly (string | number)[];

const LONGEST_QUOTE = 60;

/** A text of the document in double quotes, on one line, cut short where it is long. */
export function quote(text: string): string {
  const short = text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE - 1)}…` : text;
  return JSON.stringify(short).replace(/[\u007f-\u009f\u2028\u2029]/g, (c) => {
    return `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`;
  });
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

export const problem = (path: Path, message: string): JobProblem => ({ place: placeOf(path), message });
