import { own } from "../peek.ts";
import type { FileNode, Inner, Way } from "./kind.ts";
import type { LandingNode, PlaceNode } from "./nodes.ts";

/** At the point of the host's centreline that is closest to another node. */
export interface TowardWhere {
  readonly by: "toward";
  readonly toward: PlaceNode | LandingNode;
}

export interface FileToward {
  toward: FileNode;
}

export const towardShape = (target: Inner["schema"]) => ({
  toward: target
    .optional()
    .describe("Lands where the other bar is closest to this: a place, a point, or a landing on a third bar."),
});

export const toward = (target: Inner): Way<FileToward, TowardWhere> => ({
  by: "toward",
  keys: ["toward"],
  rules: (node, path) => target.rules(own(node, "toward"), [...path, "toward"]),
  names: (node, path, found) => target.names(own(node, "toward"), [...path, "toward"], found),
  read: (file) =>
    file.toward === undefined ? undefined : { by: "toward", toward: target.read(file.toward) },
});
