import * as z from "zod";
import type { PhraseCode } from "../../findings/index.ts";
import { must, place } from "../fields.ts";
import { has, isDict } from "../peek.ts";
import { type Fault, type Path, problem } from "../problem.ts";
import { at } from "./at.ts";
import type { FileNode, Found, Inner, Kind, Turn } from "./kind.ts";
import { landing, waysOf } from "./landing.ts";
import type { LandingNode, NodeKind, PathNode, Place, PlaceNode } from "./nodes.ts";
import { plate } from "./plate.ts";
import { point } from "./point.ts";
import { step } from "./step.ts";

/** What a kind that holds a node asks of all kinds; asked when a document is read, by when they are all here. */
const inner: Inner = {
  schema: z.lazy(() => target),
  rules: (node, path) => nodeRules(node, path),
  names: (node, path, found) => namesInNode(node, path, found),
  read: (file) => targetOf(file),
};

/** Every kind of node, those that need a thing to be on first, as their shapes are tried. */
const KINDS: readonly Kind[] = [landing(inner), plate, at, point, step];

const TARGETS = KINDS.filter((kind) => kind.isTarget);

const schemaOf = (kinds: readonly Kind[], error: PhraseCode): z.ZodType<FileNode> =>
  z.union([place, ...kinds.map((kind) => kind.schema)], must(error));

const target = schemaOf(TARGETS, "toward-is");

/** The shape of a path's node, lengths read. */
export const node = schemaOf(KINDS, "node-is");

/** The kinds that a raw node says to be; more than one where it is wrong. A list is a place, whatever it holds. */
const kindsIn = (value: unknown): readonly Kind[] =>
  isDict(value) ? KINDS.filter((kind) => has(value, kind.kind)) : [];

/** What the shape of a node cannot say; `turn` is given for the nodes of a path, not for those within a node. */
export const nodeRules = (value: unknown, path: Path, turn?: Turn): readonly Fault[] =>
  kindsIn(value).flatMap((kind) => {
    const inside = turn !== undefined && turn.i > 0 && turn.i < turn.count - 1;
    return [
      ...(kind.rules?.(value, path, turn) ?? []),
      ...(kind.isEnd && inside ? [problem([...path, kind.kind], "inner-landing")] : []),
    ];
  });

/** Every name in a raw node. */
export function namesInNode(value: unknown, path: Path, found: Found): void {
  for (const kind of kindsIn(value)) kind.names?.(value, path, found);
}

/** Asked first everywhere: a list has a method `at`, which is no key of a node. */
const isPlace = (file: FileNode): file is Place & FileNode => Array.isArray(file);

/** The node that a checked shape says. */
export function nodeOf(file: FileNode): PathNode {
  if (isPlace(file)) return at.read({ at: file });
  const [kind] = kindsIn(file);
  if (!kind) throw new Error("nodeOf: a node of no kind passed the schema");
  return kind.read(file);
}

function targetOf(file: FileNode): PlaceNode | LandingNode {
  const node = nodeOf(file);
  if (node.kind === "plate") throw new Error("targetOf: a plate passed the schema of a target");
  return node;
}

const WAYS = waysOf(inner);

/**
 * The kind of a node as the file has it: a landing is of the kind of its way of landing. Undefined for what says none
 * (or, of a landing, not where).
 */
export function kindOf(value: unknown): NodeKind | undefined {
  if (Array.isArray(value)) return "at";
  const kind = kindsIn(value)[0]?.kind;
  if (kind !== "on") return kind;
  return WAYS.find((way) => way.keys.some((key) => has(value, key)))?.by;
}
