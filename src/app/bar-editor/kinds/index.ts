import type { Place } from "../../../core/job/index.ts";
import { isObject, type JobDocument, type Json, at as partAt } from "../../model/document/index.ts";
import { along } from "./along.ts";
import { at } from "./at.ts";
import type { KindOfNode, NodeKind, Way } from "./kind.ts";
import { plane } from "./plane.ts";
import { plate } from "./plate.ts";
import { point } from "./point.ts";
import { step } from "./step.ts";
import { toward } from "./toward.ts";

export type { Before, NodeKind, Spot, Way } from "./kind.ts";
export { crowdOf } from "./landing.ts";
export { whole } from "./whole.ts";

/** Every kind of node. One that is not listed does not compile. */
export const KINDS: Readonly<Record<NodeKind, KindOfNode>> = { plane, along, plate, at, point, step, toward };

/** The keys that tell the kinds apart, in a node as the file has it. */
const KEYS: Readonly<Record<NodeKind, readonly string[]>> = {
  at: ["at"],
  step: ["step"],
  point: ["point"],
  plate: ["plate"],
  along: ["along"],
  plane: ["x", "y", "z"],
  toward: ["toward"],
};

/** The kind of a node as the file has it; undefined for what says none. */
export function kindOf(node: Json | undefined): NodeKind | undefined {
  if (Array.isArray(node)) return "at";
  if (node === undefined || !isObject(node)) return undefined;
  const kinds = Object.keys(KEYS) as readonly NodeKind[];
  return kinds.find((kind) => KEYS[kind].some((key) => partAt(node, [key]) !== undefined));
}

/** Every way in which a person may place a node, as they are offered for one where it is. */
export const waysFor = (role: "A" | "B" | "corner"): readonly Way[] =>
  Object.values(KINDS)
    .flatMap((kind) => kind.ways)
    .filter((way) => way.for === "both" || way.for === (role === "corner" ? "corners" : "ends"));

/** Where a node says that it is, whatever is computed yet: a place of its own, or that of its plate or point. */
export function saidPlace(document: JobDocument, node: Json | undefined): Place | undefined {
  const kind = kindOf(node);
  return node === undefined || kind === undefined ? undefined : KINDS[kind].place?.(node, document);
}
