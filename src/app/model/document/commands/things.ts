import {
  isObject,
  type JobDocument,
  type Json,
  type JsonObject,
  withEntry,
} from "../../../../shared/index.ts";
import { REFUSED, STEP } from "../../../../words/index.ts";
import { type Command, type Dependent, done, refused } from "../command.ts";
import { calledOf, dependentsOf, HOMES, type Kind, renamed, thingsOf, usersOf } from "../names.ts";

/** Adds a tube, a die, a plate, a point or a bar under a new ID. */
export function addThing(kind: Kind, id: string, thing: Json, name?: Command["name"]): Command {
  return {
    name: name ?? STEP.add(kind, id),
    edit: (document) =>
      Object.hasOwn(thingsOf(document, kind), id)
        ? refused(REFUSED.taken(`${HOMES[kind]}.${id}`, kind))
        : done(withThing(document, kind, id, thing)),
  };
}

/** Sets some keys of a thing, undefined taking one out; a thing that is no object (a point [x, y, z]) is replaced. */
export function changeThing(
  kind: Kind,
  id: string,
  keys: Readonly<Record<string, Json | undefined>> | readonly Json[],
  name?: Command["name"],
): Command {
  return {
    name: name ?? STEP.change(kind, id),
    edit(document) {
      const thing = thingsOf(document, kind)[id];
      if (!has(document, kind, id)) return missing(kind, id);
      if (Array.isArray(keys)) return done(withThing(document, kind, id, keys));
      const next = Object.entries(keys as Readonly<Record<string, Json | undefined>>).reduce(
        (value, [key, to]) => withEntry(value, key, to),
        isObject(thing) ? thing : {},
      );
      return done(withThing(document, kind, id, next));
    },
  };
}

/** Gives a thing another ID, and whatever names it says the new one. */
export function renameThing(kind: Kind, from: string, to: string): Command {
  return {
    name: STEP.rename(kind, from, to),
    edit(document) {
      if (!has(document, kind, from)) return missing(kind, from);
      if (from === to) return done(document);
      if (has(document, kind, to)) return refused(REFUSED.taken(`${HOMES[kind]}.${to}`, kind));
      return done(renamed(document, kind, from, to));
    },
  };
}

/** Takes out a tube, a die, a plate or a point; refused, with the bars that need it, as long as any does. */
export function deleteThing(kind: Exclude<Kind, "bar">, id: string): Command {
  return {
    name: STEP.delete(kind, id),
    edit(document) {
      if (!has(document, kind, id)) return missing(kind, id);
      const dependents = dependentsOf(document, kind, id);
      if (dependents.length > 0) return refused(inUse(document, `${kind} ${id}`, dependents), dependents);
      const [other] = usersOf(document, kind, id);
      if (other) return refused(REFUSED.named(other.path.join("."), kind, id));
      return done(withThing(document, kind, id, undefined));
    },
  };
}

/** "Rear stay lands on it, Shoulder bar follows it" */
export const inUse = (document: JobDocument, what: string, dependents: readonly Dependent[]): string =>
  REFUSED.needed(
    what,
    dependents.map((d) => [calledOf(document, "bar", d.bar), d.how]),
  );

export const has = (document: JobDocument, kind: Kind, id: string): boolean =>
  Object.hasOwn(thingsOf(document, kind), id);

export const missing = (kind: Kind, id: string) => refused(REFUSED.missing(HOMES[kind], kind, id));

export function withThing(
  document: JobDocument,
  kind: Kind,
  id: string,
  thing: Json | undefined,
): JobDocument {
  const things: JsonObject = withEntry(thingsOf(document, kind), id, thing);
  return withEntry(document, HOMES[kind], things);
}
