import * as z from "zod";
import { strict } from "../fields.ts";
import { own } from "../peek.ts";
import type { Kind } from "./kind.ts";

/** An end that stands flat on a plate. */
export interface PlateNode {
  readonly kind: "plate";
  readonly plate: string;
}

export interface FilePlate {
  plate: string;
}

export const plate: Kind<FilePlate, PlateNode> = {
  kind: "plate",
  isEnd: true,
  schema: strict({ plate: z.string().describe("ID of the plate that the end stands on, cut flat.") }),
  names: (node, path, found) => found("plate", own(node, "plate"), [...path, "plate"]),
  read: (file) => ({ kind: "plate", plate: file.plate }),
};
