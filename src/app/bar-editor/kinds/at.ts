import { NODE, NODE_WAYS } from "../../../words/index.ts";
import { type Json, at as partAt } from "../../model/document/index.ts";
import { coordinates, words } from "../parts.ts";
import type { KindOfNode } from "./kind.ts";
import { placeIn, whole } from "./whole.ts";

/** A place of its own: a list of three lengths, or that list as `at`. */
export const at: KindOfNode = {
  parts(node, { path, who, isCorner }) {
    const list: Json = Array.isArray(node) ? node : (partAt(node, ["at"]) ?? null);
    const home = Array.isArray(node) ? path : [...path, "at"];
    return [words(isCorner ? "" : NODE.at), ...coordinates(home, list, who)];
  },
  ways: [{ id: "place", says: NODE_WAYS.place, for: "both", make: (_, { place }) => place.map(whole) }],
  place: placeIn,
};
