import { place, strict } from "../fields.ts";
import type { Kind } from "./kind.ts";
import type { Place } from "./nodes.ts";

/** A place in the car; the file may have the place alone. */
export interface AtNode {
  readonly kind: "at";
  readonly at: Place;
}

export interface FileAt {
  at: Place;
}

export const at: Kind<FileAt, AtNode> = {
  kind: "at",
  isTarget: true,
  schema: strict({ at: place.describe("Place in the car: forward, left, up.") }),
  read: (file) => ({ kind: "at", at: file.at }),
};
