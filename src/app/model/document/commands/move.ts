import { kindOf, type NodeKind, type Place } from "../../../../core/job/index.ts";
import { parseLength } from "../../../../core/units/index.ts";
import {
  at,
  entry,
  isList,
  isObject,
  type JobDocument,
  type Json,
  type JsonObject,
  withEntry,
} from "../../../../shared/index.ts";
import { REFUSED } from "../../../../words/index.ts";
import { type Command, done, refused } from "../command.ts";
import { calledOf, dependentsOf, thingsOf } from "../names.ts";
import { has, missing, withThing } from "./things.ts";

/**
 * Moves a bar as a whole by millimetres forward, left and up. Every place that its path says itself moves, and each plate
 * that no other bar stands on; a landing stays where it is said on its host, a step goes along with the corner before it.
 * A figure that is not touched stays as it was entered.
 */
export function moveBar(id: string, by: Place, name: string): Command {
  return {
    name,
    edit(document) {
      if (!has(document, "bar", id)) return missing("bar", id);
      const bar = thingsOf(document, "bar")[id] ?? null;
      const path = entry(bar, "path");
      const original = entry(bar, "mirrorOf");
      if (typeof original === "string")
        return refused(
          REFUSED.moveOriginal(calledOf(document, "bar", id), calledOf(document, "bar", original)),
        );
      if (!isList(path) || !isObject(bar)) return refused(REFUSED.noPath(calledOf(document, "bar", id)));
      const nodes = path.map((node) => movedNode(node, by));
      const plates = path.flatMap((node) => ownPlate(document, id, node) ?? []);
      if (nodes.every((node, i) => node === path[i]) && plates.length === 0)
        return refused(REFUSED.onOthers(calledOf(document, "bar", id)));
      const withBar = withThing(document, "bar", id, withEntry(bar, "path", nodes));
      return done(
        plates.reduce<JobDocument>((doc, plate) => {
          const thing = thingsOf(doc, "plate")[plate];
          return isObject(thing)
            ? withThing(doc, "plate", plate, withEntry(thing, "at", shifted(at(thing, ["at"]), by)))
            : doc;
        }, withBar),
      );
    },
  };
}

/** How a node of each kind moves with its bar; "stays": it is on something, or goes by the node before. */
const MOVES: Readonly<Record<NodeKind, "stays" | ((node: JsonObject, by: Place) => Json)>> = {
  at: (node, by) => withEntry(node, "at", shifted(node.at, by)),
  point: (node, by) => withEntry(node, "by", shifted(node.by ?? [0, 0, 0], by)),
  step: "stays",
  plate: "stays",
  along: "stays",
  plane: "stays",
  toward: "stays",
};

function movedNode(node: Json, by: Place): Json {
  if (isList(node)) return shifted(node, by);
  const kind = kindOf(node);
  if (kind === undefined || !isObject(node)) return node;
  const move = MOVES[kind];
  return move === "stays" ? node : move(node, by);
}

/** The plate that an end stands on, where it is this bar's alone (and its mirror image's). */
function ownPlate(document: JobDocument, id: string, node: Json): string | undefined {
  const plate = entry(node, "plate");
  if (typeof plate !== "string") return undefined;
  return dependentsOf(document, "plate", plate).every(({ bar }) => bar === id) ? plate : undefined;
}

function shifted(place: Json | undefined, by: Place): Json {
  const list = isList(place) ? place : [0, 0, 0];
  return list.map((value, k) => (by[k] === 0 ? value : tidy(millimetres(value) + (by[k] ?? 0))));
}

function millimetres(value: Json): number {
  if (typeof value === "number") return value;
  const read = parseLength(String(value));
  return read.ok ? read.mm : 0;
}

/** Places are kept to a tenth of a micrometre. */
const tidy = (x: number): number => Math.round(x * 1e4) / 1e4 + 0;
