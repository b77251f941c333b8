import * as z from "zod";
import { count, text } from "../../findings/index.ts";
import { place, strict } from "../fields.ts";
import { has, listOf, own } from "../peek.ts";
import { type Fault, type Path, problem } from "../problem.ts";
import { along, alongShape } from "./along.ts";
import type { FileLanding, Inner, Kind, Way } from "./kind.ts";
import { type LandingWhere, NOWHERE, type Place } from "./nodes.ts";
import { plane, planeShape } from "./plane.ts";
import { toward, towardShape } from "./toward.ts";

/** An end that lands on another bar: on its centreline, in one of the ways of landing. */
export interface LandingNode {
  readonly kind: "on";
  readonly on: string;
  readonly where: LandingWhere;
  readonly off: Place;
  readonly also: readonly string[];
}

/** The ways of landing, in the order in which a sentence lists their keys. */
export const waysOf = (target: Inner): readonly Way[] => [along, plane, toward(target)];

const schemaOf = (target: Inner) =>
  strict({
    on: z.string().describe("ID of the bar that the end lands on."),
    ...alongShape,
    ...planeShape,
    ...towardShape(target.schema),
    off: place
      .optional()
      .describe("Move off the other bar's centreline: forward, left, up. For a joint beside the centre."),
    also: z
      .array(z.string())
      .optional()
      .describe("IDs of other bars at the joint that the end is coped to as well."),
  });

/** The name of a bar twice among those that an end is coped to. */
function crowded(node: unknown, path: Path): readonly Fault[] {
  const named = new Set<unknown>();
  return listOf(own(node, "also")).flatMap((name, i) => {
    const at = [...path, "also", i];
    if (name === own(node, "on")) return [problem(at, "also-host")];
    if (named.has(name)) return [problem(at, "listed-twice")];
    named.add(name);
    return [];
  });
}

export function landing(target: Inner): Kind<FileLanding, LandingNode> {
  const ways = waysOf(target);
  const keys = ways.flatMap((way) => way.keys);
  return {
    kind: "on",
    isEnd: true,
    isTarget: true,
    schema: schemaOf(target),
    rules(node, path) {
      const said = keys.filter((key) => has(node, key));
      const found: Fault[] = [];
      if (said.length === 0) found.push(problem(path, "on-nowhere"));
      if (said.length > 1)
        found.push(problem(path, "on-twice", { count: count(said.length), keys: text(said.join(", ")) }));
      return [...found, ...crowded(node, path), ...ways.flatMap((way) => way.rules?.(node, path) ?? [])];
    },
    names(node, path, found) {
      found("bar", own(node, "on"), [...path, "on"], "land on");
      listOf(own(node, "also")).forEach((name, i) => {
        found("bar", name, [...path, "also", i]);
      });
      for (const way of ways) way.names?.(node, path, found);
    },
    read(file) {
      const where = ways.map((way) => way.read(file)).find((w) => w !== undefined);
      if (!where) throw new Error("landing: a node without a way of landing passed the rules");
      return { kind: "on", on: file.on, where, off: file.off ?? NOWHERE, also: file.also ?? [] };
    },
  };
}
