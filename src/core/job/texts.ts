import { count, type PhraseCode, phrase } from "../findings/index.ts";
import {
  codePoint,
  type Fault,
  hiddenIn,
  keyProblem,
  type Path,
  problem,
  type Wrong,
  wrong,
} from "./problem.ts";

/** Unicode Standard Annex 9, table 2: what turns the direction of writing. */
const DIRECTION = /[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/;

function named(char: string): PhraseCode {
  if (/[\n\r\u0085\u2028\u2029]/.test(char)) return "a-line-break";
  if (char === "\t") return "a-tab";
  if (/\p{Cc}/u.test(char)) return "a-control";
  if (DIRECTION.test(char)) return "a-direction";
  return /\p{Cs}/u.test(char) ? "half-a-character" : "a-hidden";
}

/** What is wrong with the characters of a text, undefined where nothing is. */
function hidden(text: string): Wrong | undefined {
  const char = hiddenIn(text);
  return char === undefined
    ? undefined
    : wrong("hidden-character", {
        character: phrase(named(char)),
        code: { text: codePoint(char.codePointAt(0) ?? 0) },
      });
}

/** Characters of a name or label, as a person counts them rather than as a machine stores them. */
const characters = (text: string): number => [...text].length;

/** A bar's label goes on every card, mark and tag; a name is a job's, or that of what a tube is made of. */
export const MOST = { label: 60, name: 120 } as const;

/** What keeps a text from being a label or a name of the job, undefined where nothing does. */
export function wrongText(text: string, as?: keyof typeof MOST): Wrong | undefined {
  const has = characters(text);
  return as !== undefined && has > MOST[as]
    ? wrong("text-long", { kind: { text: as }, most: count(MOST[as]), has: count(has) })
    : hidden(text);
}

/** Every text and key of a document that holds what cannot be seen. */
export function textProblems(document: unknown): readonly Fault[] {
  const problems: Fault[] = [];
  const walk = (value: unknown, path: Path): void => {
    if (typeof value === "string") {
      const why = hidden(value);
      if (why) problems.push(problem(path, why.code, why.values));
    } else if (Array.isArray(value)) {
      for (const [i, entry] of value.entries()) walk(entry, [...path, i]);
    } else if (typeof value === "object" && value !== null) {
      for (const [key, entry] of Object.entries(value)) {
        const why = hidden(key);
        if (why) problems.push(keyProblem([...path, key], why.code, why.values));
        walk(entry, [...path, key]);
      }
    }
  };
  walk(document, []);
  return problems;
}
