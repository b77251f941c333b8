import { ADD_TO_JOB } from "../../words/index.ts";
import { mmOf } from "../kit/index.ts";
import {
  at,
  type Command,
  calledOf,
  entries,
  freeId,
  idFrom,
  isObject,
  type JobDocument,
  type Json,
  type JsonObject,
  type JsonPath,
  setValues,
  thingsOf,
} from "../model/document/index.ts";
import { NEW_BAR, TUBE_1, TUBE_2 } from "./readings.ts";

/** What puts two tubes and the bar between them into a job, and what the new bar is called there. */
export interface Keeping {
  readonly command: Command;
  readonly bar: string;
}

/**
 * Two tubes and the bar between them (`made`, by `jobOfReadings`) for a job that is there already, in one step. A tube
 * of the same outside diameter and wall is the job's own, others are added. The three are where the readings put
 * them, the middle of the string at the car's datum: where the two tubes really are is entered next, at the wall.
 */
export function keepIn(document: JobDocument, made: JobDocument): Keeping {
  const values: (readonly [JsonPath, Json])[] = [];
  let tubes: JsonObject = thingsOf(document, "tube");
  const tubeOf = new Map<string, string>();
  for (const [id, tube] of entries(thingsOf(made, "tube"))) {
    const same = entries(tubes).find(([, t]) => isAlike(t, tube))?.[0];
    const name = same ?? freeId({ tubes }, "tube", idFrom(`${at(tube, ["od"])}x${at(tube, ["wall"])}`));
    if (same === undefined) values.push([["tubes", name], tube]);
    tubes = { ...tubes, [name]: tube };
    tubeOf.set(id, name);
  }
  const nameOf = new Map([TUBE_1, TUBE_2, NEW_BAR].map((id) => [id, freeId(document, "bar", id)]));
  for (const [id, name] of nameOf) {
    const bar = at(made, ["bars", id]) as JsonObject;
    const path = (bar.path as readonly Json[]).map((node) =>
      isObject(node) && typeof node.on === "string" ? { ...node, on: nameOf.get(node.on) ?? node.on } : node,
    );
    const label = `${calledOf(made, "bar", id)}${name.slice(id.length).replace("-", " ")}`;
    values.push([
      ["bars", name],
      { ...bar, label, tube: tubeOf.get(String(bar.tube)) ?? String(bar.tube), path },
    ]);
  }
  return { bar: nameOf.get(NEW_BAR) ?? NEW_BAR, command: setValues(values, ADD_TO_JOB.command) };
}

const isAlike = (a: Json, b: Json): boolean =>
  (["od", "wall"] as const).every((key) => {
    const [x, y] = [mmOf(at(a, [key])), mmOf(at(b, [key]))];
    return x !== undefined && y !== undefined && Math.abs(x - y) < 1e-6;
  });
