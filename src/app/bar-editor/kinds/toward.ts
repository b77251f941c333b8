import { kindOf } from "../../../core/job/index.ts";
import { NODE, NODE_WAYS, pointWords } from "../../../words/index.ts";
import { at, calledOf, type JobDocument, type Json } from "../../model/document/index.ts";
import { coordinates, words } from "../parts.ts";
import type { NodeKind } from "./kind.ts";
import { landing } from "./landing.ts";
import { placeIn, whole } from "./whole.ts";

/** At the host's place nearest to another place, or to a measured point; a landing there is shown as a job has it. */
export const toward = landing(
  (node, { document, path, who }) => {
    const target = at(node, ["toward"]) ?? null;
    const home = [...path, "toward"];
    const point = at(target, ["point"]);
    const by = at(target, ["by"]);
    const place = Array.isArray(target) ? target : at(target, ["at"]);
    const isBoth = typeof point === "string" || place !== undefined;
    return [
      words(NODE.toward),
      ...(isBoth
        ? [
            {
              kind: "choice",
              what: "target",
              path: home,
              value: typeof point === "string" ? point : "",
              says: targetName(document, target),
              label: NODE.towardWhat(who),
              make: (id: string) =>
                id === "" ? [...(placeIn(place) ?? SOMEWHERE)] : { point: id, by: [0, 0, 0] },
            } as const,
          ]
        : [words(targetName(document, target))]),
      ...(place === undefined
        ? []
        : coordinates(Array.isArray(target) ? home : [...home, "at"], place as Json, NODE.towardTo(who))),
      ...(by === undefined ? [] : [words(NODE.fromPoint), ...coordinates([...home, "by"], by, who)]),
    ];
  },
  [
    {
      id: "toward",
      says: NODE_WAYS.toward,
      for: "ends",
      asks: "host",
      make: (what, { place }) => ({ on: what, toward: place.map(whole) }),
    },
  ],
);

/** In the car's middle at waist height: where a target that was a point had no place. */
const SOMEWHERE = [0, 0, 600] as const;

/** What a target is called, by its kind; no bar runs toward a plate. */
const TARGETS: Readonly<Record<NodeKind, "point" | "landing" | "place">> = {
  at: "place",
  point: "point",
  step: "place",
  plate: "place",
  along: "landing",
  plane: "landing",
  toward: "landing",
};

function targetName(document: JobDocument, target: Json): string {
  const kind = kindOf(target);
  const called = kind && TARGETS[kind];
  if (called === "point") return NODE.towardPoint(pointWords(String(at(target, ["point"]))));
  if (called === "landing") return NODE.towardLanding(calledOf(document, "bar", String(at(target, ["on"]))));
  return NODE.towardPlace;
}
