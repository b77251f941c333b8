import { NODE } from "../../../words/index.ts";
import { at, calledOf, type JobDocument, type Json, type JsonPath } from "../../model/document/index.ts";
import { coordinates, type Part, type Sentence, words } from "../parts.ts";
import type { KindOfNode, Spot } from "./kind.ts";

/** The bar that a landing names. */
export const hostOf = (node: Json): string => String(at(node, ["on"]) ?? "");
export const hostName = (document: JobDocument, node: Json): string =>
  calledOf(document, "bar", hostOf(node));

const host = (document: JobDocument, path: JsonPath, id: string, who: string): Part => ({
  kind: "choice",
  what: "host",
  path,
  value: id,
  says: calledOf(document, "bar", id),
  label: NODE.whichHost(who),
});

/** A landing: its host, where on it by the way of landing, and how far moved off it. */
export const landing = (
  where: (node: Json, spot: Spot) => readonly Part[],
  ways: KindOfNode["ways"],
): KindOfNode => ({
  parts(node, spot) {
    const { document, path, who } = spot;
    const off = at(node, ["off"]);
    return [
      words(NODE.lands),
      host(document, [...path, "on"], hostOf(node), who),
      ...where(node, spot),
      ...(off === undefined || !Array.isArray(off)
        ? []
        : [words(NODE.off), ...coordinates([...path, "off"], off as Json, NODE.offBy(who))]),
    ];
  },
  ways,
});

/** What an end is notched to beside its host, a sentence each. */
export function crowdOf(node: Json, i: number, { document, path, who }: Spot): readonly Sentence[] {
  const also = at(node, ["also"]);
  if (!Array.isArray(also)) return [];
  return (also as readonly Json[]).map((id, k) => ({
    key: `node ${i} also ${k}`,
    role: "crowd" as const,
    node: i,
    parts: [words(NODE.crowd(who)), host(document, [...path, "also", k], String(id), NODE.beside(who))],
  }));
}
