import { at, isObject, type JobDocument, type Json, type JsonPath } from "../model/document/index.ts";
import type { Ask } from "./field.ts";

/**
 * What is set where a list of numbers is not there yet, as it cannot be one by one: a point gets all three coordinates at
 * once, a plate both sides alike. What is taken out of a list takes the whole list out.
 */
export function placeWith(
  document: JobDocument,
  path: JsonPath,
  to: Json | undefined,
): readonly [JsonPath, Json | undefined] {
  const k = path[path.length - 1];
  const home = path.slice(0, -1);
  const there = at(document, home);
  // a point that is a bare place becomes one with its error
  if (path[0] === "points" && k === "sd" && Array.isArray(there))
    return to === undefined ? [home, there] : [home, { at: there, sd: to }];
  if (typeof k !== "number") return [path, to];
  if (to === undefined) return [home, undefined];
  if (Array.isArray(there)) return [path, to];
  if (home[home.length - 1] === "size") return [home, [to, to]];
  const whole: Json[] = [0, 0, 0];
  whole[k] = to;
  return [home, whole];
}

/** Something new from its figures in the order of their questions; those behind the last that was answered are left out. */
export function built(asks: readonly Ask[], values: readonly Json[]): Json {
  return (
    asks
      .slice(0, values.length)
      .reduce<Json | undefined>(
        (whole, { field }, i) => put(whole, field.path, values[i] ?? null),
        undefined,
      ) ?? {}
  );
}

function put(whole: Json | undefined, [step, ...rest]: JsonPath, value: Json): Json {
  if (step === undefined) return value;
  if (typeof step === "number") {
    const list = Array.isArray(whole) ? [...(whole as readonly Json[])] : [];
    list[step] = put(list[step], rest, value);
    return list;
  }
  const object = isObject(whole) ? whole : {};
  return { ...object, [step]: put(object[step], rest, value) };
}

/** Something new, where it goes: behind the last of its list, which is begun where it is missing. */
export function added(document: JobDocument, path: JsonPath, value: Json): readonly [JsonPath, Json] {
  const home = path.slice(0, -1);
  const isFirst = typeof path.at(-1) === "number" && at(document, home) === undefined;
  return isFirst ? [home, [value]] : [path, value];
}
