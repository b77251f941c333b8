import { NODE, SIDES } from "../../words/index.ts";
import type { Json, JsonPath } from "../model/document/index.ts";

/** Words, or a value of the document that is edited where it stands: its path is the document's. */
export type Part =
  | { readonly kind: "words"; readonly words: string }
  | {
      readonly kind: "length";
      readonly path: JsonPath;
      readonly value: Json | undefined;
      /** What the number is, for its keypad: "End A: distance up or down". */
      readonly label: string;
      /** What is said of it above nothing and below: "forward", "back". Without sides it is never below nothing. */
      readonly sides?: readonly [string, string];
      /** What holds where the bar itself says nothing. */
      readonly otherwise?: string;
    }
  | {
      readonly kind: "choice";
      readonly what: Choice;
      readonly path: JsonPath;
      readonly value: string;
      readonly says: string;
      readonly label: string;
      /** What is kept for an option, where that is not its ID; an option without an ID takes it out. */
      readonly make?: (id: string) => Json;
    };

/** What is chosen from a list. */
export type Choice =
  | "tube"
  | "die"
  | "host"
  | "plate"
  | "point"
  | "near"
  | "plane"
  | "followed"
  | "side"
  | "target"
  | "original"
  | "end";

export interface Sentence {
  readonly key: string;
  readonly parts: readonly Part[];
  /** The node of the path that it says, counted from A; absent for what is said of the whole bar. */
  readonly node?: number;
  readonly role: "bar" | "A" | "corner" | "B" | "crowd";
  /** What that node is called: "End A", "Corner 2". */
  readonly who?: string;
}

export const words = (text: string): Part => ({ kind: "words", words: text });

export const AXES = ["x", "y", "z"] as const;

/** The three coordinates of a place, each with the side that it is counted to. */
export function coordinates(path: JsonPath, place: Json, who: string): readonly Part[] {
  const list = Array.isArray(place) ? (place as readonly Json[]) : [];
  return AXES.map(
    (axis, k): Part => ({
      kind: "length",
      path: [...path, k],
      value: list[k],
      label: NODE.coordinate(who, SIDES[axis]),
      sides: SIDES[axis],
    }),
  );
}
