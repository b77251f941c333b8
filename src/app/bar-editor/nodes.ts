import type { Place } from "../../core/job/index.ts";
import { mmOf } from "../kit/index.ts";
import {
  at,
  type Command,
  calledOf,
  isObject,
  type JobDocument,
  type Json,
  setValue,
} from "../model/document/index.ts";

/** The ways in which an end or a corner may be said. */
export type NodeKind = "along" | "height" | "forward" | "left" | "plate" | "place" | "point" | "step";

export const NODE_KINDS: Readonly<Record<NodeKind, string>> = {
  height: "lands on a bar, at a height",
  along: "lands on a bar, so far along it",
  forward: "lands on a bar, so far forward",
  left: "lands on a bar, so far left",
  plate: "stands on a plate",
  place: "at a place in the car",
  point: "at a measured point",
  step: "so far from the one before",
};

/** What a node may be, by where it stands. */
export const kindsFor = (role: "A" | "B" | "corner"): readonly NodeKind[] =>
  role === "corner"
    ? ["place", "point", "step"]
    : ["height", "along", "forward", "left", "plate", "place", "point"];

/** Whole millimetres: what is put in for a person to type over. */
const whole = (x: number): number => Math.round(x) + 0;

const AXIS = { height: 2, forward: 0, left: 1 } as const;
const KEY = { height: "z", forward: "x", left: "y" } as const;

/** What is known of the place that a node had: where it is computed to be, and the station on its host. */
export interface Before {
  readonly place: Place;
  readonly previous?: Place;
  readonly along?: number;
}

/** Where a node says that it is, whatever is computed yet: a place of its own, or that of its plate or point. */
export function saidPlace(document: JobDocument, node: Json | undefined): Place | undefined {
  const plate = at(node ?? null, ["plate"]);
  const point = at(node ?? null, ["point"]);
  if (typeof plate === "string") return placeIn(at(document, ["plates", plate, "at"]));
  if (typeof point === "string") {
    const [is, by] = [placeIn(at(document, ["points", point])), placeIn(at(node!, ["by"])) ?? [0, 0, 0]];
    return is && [is[0] + by[0], is[1] + by[1], is[2] + by[2]];
  }
  return placeIn(node);
}

function placeIn(value: Json | undefined): Place | undefined {
  const list = Array.isArray(value) ? (value as readonly Json[]) : at(value ?? null, ["at"]);
  if (!Array.isArray(list)) return undefined;
  const [x, y, z] = list.map(mmOf);
  return x === undefined || y === undefined || z === undefined ? undefined : [x, y, z];
}

/** A node said another way, near where it stood before; `what`: the host, plate or point that it names. */
export function nodeAs(kind: NodeKind, what: string, before: Before): Json {
  const [x, y, z] = before.place.map(whole) as [number, number, number];
  switch (kind) {
    case "along":
      return { on: what, along: whole(before.along ?? 0) };
    case "height":
    case "forward":
    case "left":
      return { on: what, [KEY[kind]]: whole(before.place[AXIS[kind]]), near: nearOf(kind, before.place) };
    case "plate":
      return { plate: what };
    case "point":
      return { point: what };
    case "step": {
      const from = before.previous ?? [0, 0, 0];
      return { step: before.place.map((c, k) => whole(c - from[k]!)) };
    }
    case "place":
      return [x, y, z];
  }
}

/** The side on which a place lies, as far as it says one. */
function nearOf(kind: "height" | "forward" | "left", place: Place): string {
  if (kind === "left") return "top";
  return place[1] < 0 ? "right" : "left";
}

/** Says a node of a bar's path anew. */
export const setNode = (document: JobDocument, bar: string, node: number, to: Json): Command =>
  setValue(
    ["bars", bar, "path", node],
    to,
    `${calledOf(document, "bar", bar)}: ${nodeName(document, bar, node)} said anew`,
  );

export function nodeName(document: JobDocument, bar: string, node: number): string {
  const path = at(document, ["bars", bar, "path"]);
  const count = Array.isArray(path) ? path.length : 0;
  return node === 0 ? "end A" : node === count - 1 ? "end B" : `corner ${node}`;
}

/** Puts a corner behind a node (half way to the next, in whole millimetres). */
export function addCorner(document: JobDocument, bar: string, behind: number, place: Place): Command {
  const path = at(document, ["bars", bar, "path"]);
  const list = Array.isArray(path) ? (path as readonly Json[]) : [];
  const next = [...list.slice(0, behind + 1), place.map(whole), ...list.slice(behind + 1)];
  return setValue(
    ["bars", bar, "path"],
    next,
    `${calledOf(document, "bar", bar)}: corner ${behind + 1} added`,
  );
}

export const removeCorner = (document: JobDocument, bar: string, node: number): Command =>
  setValue(
    ["bars", bar, "path", node],
    undefined,
    `${calledOf(document, "bar", bar)}: corner ${node} taken out`,
  );

/** Adds a bar that an end is coped to beside its host, or takes one out. */
export function setCrowd(document: JobDocument, bar: string, node: number, also: readonly string[]): Command {
  const value = at(document, ["bars", bar, "path", node]);
  const name = `${calledOf(document, "bar", bar)}: what ${nodeName(document, bar, node)} is coped to`;
  return setValue(
    ["bars", bar, "path", node, "also"],
    also.length > 0 && isObject(value) ? also : undefined,
    name,
  );
}
