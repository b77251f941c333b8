import { nodeTitle } from "../../words/index.ts";
import { isObject, type JobDocument, type Json, type JsonPath } from "../model/document/index.ts";
import { crowdOf, KINDS, kindOf } from "./kinds/index.ts";
import { type Sentence, words } from "./parts.ts";

/** One node of a path as its sentences: where it is or what it lands on, and what it is notched to besides. */
export function ofNode(
  document: JobDocument,
  path: JsonPath,
  node: Json,
  i: number,
  count: number,
): readonly Sentence[] {
  const kind = kindOf(node);
  if (kind === undefined) return [];
  const role = i === 0 ? "A" : i === count - 1 ? "B" : "corner";
  const who = nodeTitle(i, count);
  const spot = { document, path, who, isCorner: role === "corner" };
  return [
    { key: `node ${i}`, role, node: i, who, parts: [words(who), ...KINDS[kind].parts(node, spot)] },
    ...(isObject(node) ? crowdOf(node, i, spot) : []),
  ];
}
