import type { Place } from "../../../core/job/index.ts";
import { NODE, NODE_WAYS, SIDES } from "../../../words/index.ts";
import { at } from "../../model/document/index.ts";
import { AXES, coordinates } from "../parts.ts";
import type { Way } from "./kind.ts";
import { hostName, landing } from "./landing.ts";
import { whole } from "./whole.ts";

const way = (id: "height" | "forward" | "left", axis: 0 | 1 | 2): Way => ({
  id,
  says: NODE_WAYS[id],
  for: "ends",
  asks: "host",
  make: (what, { place }) => ({ on: what, [AXES[axis]]: whole(place[axis]), near: nearOf(axis, place) }),
});

/** The side on which a place is, as far as it says one. */
const nearOf = (axis: 0 | 1 | 2, place: Place): string =>
  axis === 1 ? "top" : place[1] < 0 ? "right" : "left";

/** Where the host crosses a plane square to an axis, on one of its sides. */
export const plane = landing(
  (node, { document, path, who }) => {
    const axis = AXES.find((a) => at(node, [a]) !== undefined) ?? "z";
    const near = at(node, ["near"]);
    const host = hostName(document, node);
    return [
      {
        kind: "choice",
        what: "near",
        path: [...path, "near"],
        value: typeof near === "string" ? near : "",
        says: typeof near === "string" ? near : near === undefined ? NODE.onlyPlace : NODE.nearPlace,
        label: NODE.side(who, host),
      },
      {
        kind: "length",
        path: [...path, axis],
        value: at(node, [axis]),
        label: NODE.onHost(who, SIDES[axis], host),
        sides: SIDES[axis],
      },
      ...(Array.isArray(near) ? coordinates([...path, "near"], near, NODE.nearTo(who)) : []),
    ];
  },
  [
    way("height", 2),
    way("forward", 0),
    way("left", 1),
    {
      id: "height near",
      says: NODE_WAYS.heightNear,
      for: "ends",
      asks: "host",
      make: (what, { place }) => ({ on: what, z: whole(place[2]), near: place.map(whole) }),
    },
  ],
);
