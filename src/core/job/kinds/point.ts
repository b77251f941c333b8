import * as z from "zod";
import { place, strict } from "../fields.ts";
import { own } from "../peek.ts";
import type { Kind } from "./kind.ts";
import { NOWHERE, type Place } from "./nodes.ts";

/** A measured point, moved. */
export interface PointNode {
  readonly kind: "point";
  readonly point: string;
  readonly by: Place;
}

export interface FilePoint {
  point: string;
  by?: Place | undefined;
}

export const point: Kind<FilePoint, PointNode> = {
  kind: "point",
  isTarget: true,
  schema: strict({
    point: z.string().describe("ID of a measured point."),
    by: place
      .optional()
      .describe("Move from the point: forward, left, up. Without it the node is at the point."),
  }),
  names: (node, path, found) => found("point", own(node, "point"), [...path, "point"]),
  read: (file) => ({ kind: "point", point: file.point, by: file.by ?? NOWHERE }),
};
