import { NODE, NODE_WAYS, pointWords } from "../../../words/index.ts";
import { at } from "../../model/document/index.ts";
import { coordinates, type Part, words } from "../parts.ts";
import type { KindOfNode } from "./kind.ts";
import { placeIn } from "./whole.ts";

/** A measured point, moved. */
export const point: KindOfNode = {
  parts(node, { path, who }) {
    const id = String(at(node, ["point"]));
    const by = at(node, ["by"]);
    const chosen: Part = {
      kind: "choice",
      what: "point",
      path: [...path, "point"],
      value: id,
      says: pointWords(id),
      label: NODE.whichPoint(who),
    };
    return [
      words(NODE.point),
      chosen,
      ...(by === undefined ? [] : [words(NODE.fromPoint), ...coordinates([...path, "by"], by, who)]),
    ];
  },
  ways: [
    { id: "point", says: NODE_WAYS.point, for: "both", asks: "point", make: (what) => ({ point: what }) },
  ],
  place(node, document) {
    const is = placeIn(at(document, ["points", String(at(node, ["point"]))]));
    const [x, y, z] = placeIn(at(node, ["by"])) ?? [0, 0, 0];
    return is && [is[0] + x, is[1] + y, is[2] + z];
  },
};
