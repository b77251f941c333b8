import { kindOf } from "../../../core/job/index.ts";
import { NODE, pointWords } from "../../../words/index.ts";
import { at, calledOf, type JobDocument, type Json } from "../../model/document/index.ts";
import { coordinates, words } from "../parts.ts";
import type { NodeKind } from "./kind.ts";
import { landing } from "./landing.ts";

/** At the host's place nearest to another place; not offered, but shown and edited where a job has it. */
export const toward = landing((node, { document, path, who }) => {
  const target = at(node, ["toward"]) ?? null;
  const place = Array.isArray(target) ? target : at(target, ["at"]);
  const home = Array.isArray(target) ? [...path, "toward"] : [...path, "toward", "at"];
  return [
    words(NODE.toward),
    ...(place === undefined ? [words(targetName(document, target))] : coordinates(home, place as Json, who)),
  ];
}, []);

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
