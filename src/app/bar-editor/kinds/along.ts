import { ALONG_SIDES, NODE, NODE_WAYS } from "../../../words/index.ts";
import { at } from "../../model/document/index.ts";
import { hostName, landing } from "./landing.ts";
import { whole } from "./whole.ts";

/** So far along the host. */
export const along = landing(
  (node, { document, path, who }) => [
    {
      kind: "length",
      path: [...path, "along"],
      value: at(node, ["along"]),
      label: NODE.along(who, hostName(document, node)),
      sides: ALONG_SIDES,
    },
  ],
  [
    {
      id: "along",
      says: NODE_WAYS.along,
      for: "ends",
      asks: "host",
      make: (what, { along = 0 }) => ({ on: what, along: whole(along) }),
    },
  ],
);
