import { NODE, NODE_WAYS } from "../../../words/index.ts";
import { at } from "../../model/document/index.ts";
import { words } from "../parts.ts";
import type { KindOfNode } from "./kind.ts";
import { placeIn } from "./whole.ts";

/** Flat on a plate. */
export const plate: KindOfNode = {
  parts(node, { path, who }) {
    const id = String(at(node, ["plate"]));
    return [
      words(NODE.plate),
      {
        kind: "choice",
        what: "plate",
        path: [...path, "plate"],
        value: id,
        says: id,
        label: NODE.whichPlate(who),
      },
    ];
  },
  ways: [
    { id: "plate", says: NODE_WAYS.plate, for: "ends", asks: "plate", make: (what) => ({ plate: what }) },
  ],
  place: (node, document) => placeIn(at(document, ["plates", String(at(node, ["plate"])), "at"])),
};
