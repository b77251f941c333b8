import type { Place } from "../../../core/job/index.ts";
import { kindOf } from "../../../core/job/index.ts";
import type { JobDocument, Json } from "../../model/document/index.ts";
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

export { kindOf };
