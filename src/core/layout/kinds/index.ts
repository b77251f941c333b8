import type { PathNode } from "../../job/types.ts";
import { at } from "./at.ts";
import type { Placing } from "./kind.ts";
import { landing } from "./landing.ts";
import { plate } from "./plate.ts";
import { point } from "./point.ts";
import { step } from "./step.ts";

/** Every kind of node, by the word that the job has for it. */
const KINDS: { readonly [Kind in PathNode["kind"]]: Placing<Extract<PathNode, { kind: Kind }>> } = {
  at,
  point,
  step,
  plate,
  on: landing((node) => placingOf(node)),
};

/** How a node becomes a place. */
export const placingOf = (node: PathNode): Placing => KINDS[node.kind];

export type { Mirroring, Surroundings } from "./kind.ts";
export { mirroredPlate } from "./plate.ts";
