import {
  entry,
  isList,
  isObject,
  type JobDocument,
  type Json,
  type JsonObject,
  type JsonPath,
  withEntry,
} from "../../../../shared/index.ts";
import { REFUSED, STEP } from "../../../../words/index.ts";
import { type Command, done, type Refusal, refused } from "../command.ts";

/**
 * Sets one key of the job, wherever it is; undefined takes it out. A length stays as it was entered, unit and all.
 * Objects on the way are made where they are missing; of a list an entry, or the one behind its last, can be set.
 */
export function setValue(
  path: JsonPath,
  to: Json | undefined,
  name: Command["name"] = STEP.set(placeOf(path)),
): Command {
  return {
    name,
    edit(document) {
      const next = setAt(document, path, to, []);
      return isRefusal(next) ? next : done(next as JobDocument);
    },
  };
}

/** Several keys in one step. */
export function setValues(
  values: readonly (readonly [path: JsonPath, to: Json | undefined])[],
  name: Command["name"],
): Command {
  return {
    name,
    edit(document) {
      let next: JobDocument = document;
      for (const [path, to] of values) {
        const set = setAt(next, path, to, []);
        if (isRefusal(set)) return set;
        next = set as JobDocument;
      }
      return done(next);
    },
  };
}

/** An example figure is right as it is: it counts as the shop's own from now on. `of`: the thing that has it. */
export const confirmExample = (of: JsonPath, figure: string, name: string): Command => ({
  name,
  edit(document) {
    const thing = of.reduce<Json | undefined>(entry, document);
    const next = isObject(thing) ? replaced(thing, figure) : thing;
    return next === thing || next === undefined ? done(document) : setValue(of, next, name).edit(document);
  },
});

/** The job's own name. */
export const nameJob = (name: string): Command => setValue(["name"], name, STEP.nameJob(name));

/** Units in which lengths are shown; what was entered stays as it is, and so does what undo would take back. */
export const showUnits = (
  length: "mm" | "in",
  fraction?: number,
  name: string = length === "mm" ? STEP.mm : STEP.inches(fraction),
): Command => ({
  ...setValues(
    [
      [["show", "length"], length],
      ...(fraction === undefined ? [] : [[["show", "fraction"], fraction] as const]),
    ],
    name,
  ),
  isAside: true,
});

const placeOf = (path: JsonPath): string =>
  path.reduce<string>(
    (place, step) =>
      typeof step === "number" ? `${place}[${step}]` : place === "" ? step : `${place}.${step}`,
    "",
  );

const isRefusal = (value: Json | undefined | Refusal): value is Refusal =>
  isObject(value as Json) && entry(value as Json, "ok") === false && isList(entry(value as Json, "lines"));

function setAt(
  value: Json | undefined,
  path: JsonPath,
  to: Json | undefined,
  above: JsonPath,
): Json | undefined | Refusal {
  const [step, ...rest] = path;
  if (step === undefined) return to;
  const here = placeOf(above) || "job";
  const set = setAt(entry(value, step), rest, to, [...above, step]);
  if (isRefusal(set)) return set;
  if (typeof step === "number") {
    if (!isList(value)) return refused(REFUSED.noList(here, step));
    if (step < 0 || step > value.length || !Number.isInteger(step))
      return refused(REFUSED.short(here, value.length, step));
    return set === undefined
      ? value.filter((_, i) => i !== step)
      : [...value.slice(0, step), set, ...value.slice(step + 1)];
  }
  if (value !== undefined && !isObject(value)) return refused(REFUSED.noObject(here, step));
  return withEntry(replaced(value ?? {}, step), step, set);
}

/** A figure that is set is the shop's own: no example any more. */
function replaced(value: JsonObject, key: string): JsonObject {
  const { example } = value;
  if (key === "example" || !isList(example) || !example.includes(key)) return value;
  const rest = example.filter((figure) => figure !== key);
  return withEntry(value, "example", rest.length > 0 ? rest : undefined);
}
