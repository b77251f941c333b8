import { BAR, CHOICES, NODE } from "../../words/index.ts";
import { at, calledOf, entries, type JobDocument, type Json, thingsOf } from "../model/document/index.ts";
import type { Choice } from "./parts.ts";

/** Directions of the car by name. */
export const WAYS: Readonly<Record<string, Json>> = {
  forward: [1, 0, 0],
  back: [-1, 0, 0],
  left: [0, 1, 0],
  right: [0, -1, 0],
  up: [0, 0, 1],
  down: [0, 0, -1],
};

/** All things of a kind that a choice may take, by ID and by what a person calls them. */
export function optionsFor(
  document: JobDocument,
  what: Choice,
  bar: string,
): readonly (readonly [id: string, says: string])[] {
  const bars = (): readonly (readonly [string, string])[] =>
    entries(thingsOf(document, "bar"))
      .filter(([id]) => id !== bar)
      .map(([id]) => [id, calledOf(document, "bar", id)]);
  const ids = (kind: "tube" | "die" | "plate" | "point") =>
    entries(thingsOf(document, kind)).map(([id]) => [id, calledOf(document, kind, id)] as const);
  switch (what) {
    case "tube":
    case "plate":
    case "point":
      return ids(what);
    case "die":
      return [["", CHOICES.straight], ...ids("die")];
    case "near":
      return [
        ["", NODE.onlyPlace],
        ...["left", "right", "front", "rear", "top", "bottom"].map((s) => [s, s] as const),
      ];
    case "side":
      return [
        ["inside", "inside"],
        ["outside", "outside"],
        ...Object.keys(WAYS).map((way) => [way, BAR.way(way)] as const),
      ];
    case "target":
      return [["", NODE.towardPlace], ...ids("point")];
    case "end":
      return [
        ["A", CHOICES.end("A")],
        ["B", CHOICES.end("B")],
      ];
    case "plane":
      return [
        ["z", CHOICES.plane.z],
        ["x", CHOICES.plane.x],
        ["y", CHOICES.plane.y],
      ];
    case "original":
      return bars().filter(([id]) => at(document, ["bars", id, "mirrorOf"]) === undefined);
    case "host":
    case "followed":
      return bars();
  }
}
