import { NODE, NODE_WAYS } from "../../../words/index.ts";
import { at } from "../../model/document/index.ts";
import { coordinates, words } from "../parts.ts";
import type { KindOfNode } from "./kind.ts";
import { whole } from "./whole.ts";

/** So far from the node before. */
export const step: KindOfNode = {
  parts: (node, { path, who }) => [
    words(NODE.step),
    ...coordinates([...path, "step"], at(node, ["step"]) ?? null, who),
  ],
  ways: [
    {
      id: "step",
      says: NODE_WAYS.step,
      for: "corners",
      make: (_, { place: [x, y, z], previous: [px, py, pz] = [0, 0, 0] }) => ({
        step: [whole(x - px), whole(y - py), whole(z - pz)],
      }),
    },
  ],
};
