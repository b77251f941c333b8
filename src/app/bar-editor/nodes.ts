import type { Place } from "../../core/job/index.ts";
import { NODE_TOOLS, nodeWords } from "../../words/index.ts";
import {
  at,
  type Command,
  calledOf,
  isObject,
  type JobDocument,
  type Json,
  setValue,
} from "../model/document/index.ts";
import { whole } from "./kinds/index.ts";

/** Places a node of a bar's path another way. */
export const setNode = (document: JobDocument, bar: string, node: number, to: Json): Command =>
  setValue(
    ["bars", bar, "path", node],
    to,
    NODE_TOOLS.placed(calledOf(document, "bar", bar), nodeName(document, bar, node)),
  );

export function nodeName(document: JobDocument, bar: string, node: number): string {
  const path = at(document, ["bars", bar, "path"]);
  const count = Array.isArray(path) ? path.length : 0;
  return nodeWords(node, count);
}

/** Puts a corner behind a node (half way to the next, in whole millimetres). */
export function addCorner(document: JobDocument, bar: string, behind: number, place: Place): Command {
  const path = at(document, ["bars", bar, "path"]);
  const list = Array.isArray(path) ? (path as readonly Json[]) : [];
  const next = [...list.slice(0, behind + 1), place.map(whole), ...list.slice(behind + 1)];
  return setValue(["bars", bar, "path"], next, NODE_TOOLS.added(calledOf(document, "bar", bar), behind + 1));
}

export const removeCorner = (document: JobDocument, bar: string, node: number): Command =>
  setValue(["bars", bar, "path", node], undefined, NODE_TOOLS.removed(calledOf(document, "bar", bar), node));

/** Adds a bar that an end is notched to beside its host, or takes one out. */
export function setCrowd(document: JobDocument, bar: string, node: number, also: readonly string[]): Command {
  const value = at(document, ["bars", bar, "path", node]);
  const name = NODE_TOOLS.crowded(calledOf(document, "bar", bar), nodeName(document, bar, node));
  return setValue(
    ["bars", bar, "path", node, "also"],
    also.length > 0 && isObject(value) ? also : undefined,
    name,
  );
}

/** A landing moved off its host's centreline, or a place from its point: by nothing, to be typed over. */
export const moveOff = (document: JobDocument, bar: string, node: number): Command =>
  setValue(
    ["bars", bar, "path", node, offOf(at(document, ["bars", bar, "path", node]) ?? null) ?? "off"],
    [0, 0, 0],
    NODE_TOOLS.moved(calledOf(document, "bar", bar), nodeName(document, bar, node)),
  );

/** What such a move is called in the job; undefined for a node that has none, or is moved already. */
export function offOf(node: Json): "off" | "by" | undefined {
  const key = at(node, ["on"]) !== undefined ? "off" : at(node, ["point"]) !== undefined ? "by" : undefined;
  return key !== undefined && at(node, [key]) === undefined ? key : undefined;
}
