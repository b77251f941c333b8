import { count, text } from "../findings/index.ts";
import { type Fault, problem } from "./problem.ts";

/** A job is some ten levels deep; what goes far beyond is no job, and could exhaust the stack. */
const DEEPEST = 60;

/**
 * The first thing that is not plain JSON in a document: a function, a symbol, a big integer, an object of a class (date, map), or
 * nesting beyond all reason (which is what an object that holds itself looks like). Text from JSON.parse can only be too deep.
 */
export function plainProblems(document: unknown): readonly Fault[] {
  const path: (string | number)[] = [];
  const walk = (value: unknown): Fault | undefined => {
    if (["function", "symbol", "bigint"].includes(typeof value))
      return problem(path, "no-json", { kind: text(typeof value) });
    if (typeof value !== "object" || value === null) return undefined;
    if (path.length > DEEPEST) return problem(path.slice(0, 3), "too-deep", { most: count(DEEPEST) });
    const parent: unknown = Object.getPrototypeOf(value);
    if (!Array.isArray(value) && parent !== null && Object.getPrototypeOf(parent) !== null)
      return problem(path, "class-no-json");
    for (const [key, entry] of Array.isArray(value) ? value.entries() : Object.entries(value)) {
      path.push(key);
      const found = walk(entry);
      if (found) return found;
      path.pop();
    }
    return undefined;
  };
  const found = walk(document);
  return found ? [found] : [];
}
