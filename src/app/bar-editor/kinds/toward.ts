import { NODE } from "../../../words/index.ts";
import { at, calledOf, type JobDocument, type Json } from "../../model/document/index.ts";
import { coordinates, words } from "../parts.ts";
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

function targetName(document: JobDocument, target: Json): string {
  const point = at(target, ["point"]);
  if (typeof point === "string") return NODE.towardPoint(point);
  const on = at(target, ["on"]);
  return typeof on === "string" ? NODE.towardLanding(calledOf(document, "bar", on)) : NODE.towardPlace;
}
