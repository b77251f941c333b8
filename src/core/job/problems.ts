import type * as z from "zod";
import { lookup } from "./peek.ts";
import { type Fault, keyProblem, type Path, problem, quote } from "./problem.ts";
import type { Suggester } from "./suggest.ts";

type Issue = z.core.$ZodIssue;

/** What stands there, in words. */
function found(value: unknown): string {
  if (value === null) return "null";
  if (typeof value === "string") return `the text ${quote(value)}`;
  if (Array.isArray(value)) return value.length === 0 ? "an empty list" : `a list of ${value.length}`;
  if (typeof value === "object") {
    const keys = Object.keys(value);
    return keys.length === 0 ? "{}" : `an object with ${keys.slice(0, 5).map(quote).join(", ")}`;
  }
  return String(value);
}

const KINDS: Readonly<Record<string, string>> = {
  string: "text",
  number: "a number",
  int: "a whole number",
  array: "a list",
  tuple: "a list",
  object: "an object",
  record: "an object",
};

function inWords(issue: Issue, value: unknown, suggester: Suggester): string {
  switch (issue.code) {
    case "invalid_value": {
      const names = issue.values.map((v) => (typeof v === "string" ? quote(v) : String(v)));
      const named = issue.values.every((v) => typeof v === "string");
      const hint = named && typeof value === "string" ? suggester.hint(value, issue.values.map(String)) : "";
      const must = `must be ${names.join(" or ")}`;
      return value === undefined ? `missing; ${must}` : `${must}, not ${found(value)}${hint}`;
    }
    case "too_small":
    case "too_big": {
      const small = issue.code === "too_small";
      const limit = small ? issue.minimum : issue.maximum;
      if (issue.origin === "array")
        return `needs ${small ? "at least" : "at most"} ${limit}, not ${found(value)}`;
      const word = issue.inclusive ? (small ? "at least" : "at most") : small ? "more than" : "less than";
      return `must be ${word} ${limit}, not ${found(value)}`;
    }
    case "invalid_type":
      return value === undefined
        ? "missing"
        : `must be ${KINDS[issue.expected] ?? issue.expected}, not ${found(value)}`;
    default:
      return issue.message;
  }
}

/** Messages that the schema gave itself; the others are put in words here. */
const isOwn = (issue: Issue): boolean => !/^(Invalid|Too|Unrecognized)/.test(issue.message);

function unknownKeys(
  issue: Issue & { readonly code: "unrecognized_keys" },
  path: Path,
  suggester: Suggester,
): readonly Fault[] {
  const [known = "", because = ""] = issue.message.split("|");
  return issue.keys.map((key) => {
    const otherwise = because === "" ? `; known here: ${known}` : `; ${because.replace("{known}", known)}`;
    return keyProblem([...path, key], `unknown key${suggester.hint(key, known.split(", "), otherwise)}`);
  });
}

const isMismatch = (issue: Issue): boolean =>
  issue.path.length === 0 && (issue.code === "invalid_type" || issue.code === "invalid_value");

/**
 * Which of a union's kinds was meant: the first of the right type with every key that it must have, else the one
 * that knows most of the keys there; undefined where that is not clear.
 */
function meant(kinds: readonly (readonly Issue[])[], value: unknown): readonly Issue[] | undefined {
  const possible = kinds.filter((issues) => !issues.some(isMismatch));
  const complete = possible.find((issues) =>
    issues.every((issue) => issue.path.length !== 1 || lookup(value, issue.path as Path) !== undefined),
  );
  if (complete) return complete;
  const unknown = possible.map((issues) =>
    issues.reduce((n, issue) => n + (issue.code === "unrecognized_keys" ? issue.keys.length : 0), 0),
  );
  const least = Math.min(...unknown);
  return unknown.filter((n) => n === least).length === 1 ? possible[unknown.indexOf(least)] : undefined;
}

/** The schema's issues as lines for people, one for each thing wrong. */
export function problemsOf(
  issues: readonly Issue[],
  document: unknown,
  suggester: Suggester,
  above: Path = [],
): readonly Fault[] {
  return issues.flatMap((issue) => {
    const path = [...above, ...(issue.path as Path)];
    const value = lookup(document, path);
    if (issue.code === "unrecognized_keys") return unknownKeys(issue, path, suggester);
    if (issue.code === "invalid_union") {
      const kind = value === undefined ? undefined : meant(issue.errors, value);
      if (kind) return problemsOf(kind, document, suggester, path);
    }
    const own = isOwn(issue);
    if (issue.code === "custom") return [problem(path, issue.message)];
    if (!own) return [problem(path, inWords(issue, value, suggester))];
    if (value === undefined) return [problem(path, `missing; ${issue.message}`)];
    const message = `${issue.message}, not ${found(value)}`;
    return [problem(path, message)];
  });
}
