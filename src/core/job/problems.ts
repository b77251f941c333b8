import type * as z from "zod";
import { count, type Phrase, type PhraseCode, phrase, type Quantity, text } from "../findings/index.ts";
import { lookup } from "./peek.ts";
import { type Fault, keyProblem, type Path, problem, quote, type Wrong } from "./problem.ts";
import type { Suggester } from "./suggest.ts";

type Issue = z.core.$ZodIssue;

/** What is there instead. */
function found(value: unknown): Quantity {
  if (value === null) return text("null");
  if (typeof value === "string") return phrase("found-text", { text: text(quote(value)) });
  if (Array.isArray(value))
    return phrase(value.length === 0 ? "found-empty-list" : "found-list", { count: count(value.length) });
  if (typeof value === "object") {
    const keys = Object.keys(value);
    return keys.length === 0
      ? text("{}")
      : phrase("found-object", { keys: text(keys.slice(0, 5).map(quote).join(", ")) });
  }
  return text(String(value));
}

const KINDS: Readonly<Record<string, PhraseCode>> = {
  string: "kind-text",
  number: "kind-number",
  int: "kind-whole",
  array: "kind-list",
  tuple: "kind-list",
  object: "kind-object",
  record: "kind-object",
};

const wrongKind = (expected: string, value: unknown): Wrong => {
  const kind = KINDS[expected];
  const must = kind ? phrase(kind) : text(expected);
  return { code: "wrong-kind", values: { must, found: found(value) } };
};

/** "did you mean": the name that comes close, if one does, else what is said in its place. */
export const hintOf = (close: string | undefined, otherwise: Quantity = text("")): Quantity =>
  close === undefined ? otherwise : phrase("did-you-mean", { name: text(quote(close)) });

/** What is wrong, where the schema itself does not say so. */
function wrongIn(issue: Issue, value: unknown, suggester: Suggester): Wrong {
  switch (issue.code) {
    case "invalid_value": {
      const names = issue.values.map((v) => (typeof v === "string" ? quote(v) : String(v)));
      const named = issue.values.every((v) => typeof v === "string");
      const hint =
        named && typeof value === "string"
          ? hintOf(suggester.closest(value, issue.values.map(String)))
          : text("");
      const choice = { list: names.map(text), or: true } as const;
      return value === undefined
        ? { code: "missing-choice", values: { choice } }
        : { code: "not-among", values: { choice, found: found(value), hint } };
    }
    case "too_small":
    case "too_big": {
      const small = issue.code === "too_small";
      const limit = small ? issue.minimum : issue.maximum;
      const values = { limit: text(String(limit)), found: found(value) };
      if (issue.origin === "array") return { code: small ? "list-too-short" : "list-too-long", values };
      if (issue.inclusive) return { code: small ? "below-least" : "above-most", values };
      return { code: small ? "not-above" : "not-below", values };
    }
    case "invalid_type":
      return value === undefined ? { code: "missing", values: {} } : wrongKind(issue.expected, value);
    default:
      return { code: "unreadable", values: { why: text(issue.message) } };
  }
}

/** The schema's own messages are codes of what it wants; the others are made into one here. */
const isOwn = (issue: Issue): boolean => !/^(Invalid|Too|Unrecognized)/.test(issue.message);

function unknownKeys(
  issue: Issue & { readonly code: "unrecognized_keys" },
  path: Path,
  suggester: Suggester,
): readonly Fault[] {
  const [known = "", because = ""] = issue.message.split("|");
  return issue.keys.map((key) => {
    const otherwise = phrase((because || "known-keys") as PhraseCode, { known: text(known) });
    return keyProblem([...path, key], "unknown-key", {
      hint: hintOf(suggester.closest(key, known.split(", ")), otherwise),
    });
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

const ofWrong = (path: Path, { code, values }: Wrong): Fault => problem(path, code, values);

/** The schema's issues as problems, one for each thing wrong. */
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
    if (issue.code === "custom") return [ofWrong(path, issue.params as Wrong)];
    if (!own) return [ofWrong(path, wrongIn(issue, value, suggester))];
    const must: Phrase = { phrase: issue.message as PhraseCode };
    return [
      value === undefined
        ? problem(path, "missing-shape", { must })
        : problem(path, "wrong-shape", { must, found: found(value) }),
    ];
  });
}
