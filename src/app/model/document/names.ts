import {
  type End,
  MOST,
  PROGRESS,
  type Progress,
  type Reference,
  referencesOf,
} from "../../../core/job/index.ts";
import {
  at,
  entries,
  entry,
  isObject,
  type JobDocument,
  type Json,
  type JsonObject,
  type JsonPath,
  slug,
} from "../../../shared/index.ts";
import { capital, labels, type Names, type Need, pointWords, THINGS } from "../../../words/index.ts";
import type { Dependent } from "./command.ts";

/** What people call the thing that a place of the file is in (`bars.harness.path[0]`); undefined where it is in none. */
export function thingAt(document: JobDocument, place: string): string | undefined {
  const found = (Object.keys(HOMES) as Kind[]).flatMap((kind) =>
    Object.keys(thingsOf(document, kind))
      .filter(
        (id) => `${place}.`.startsWith(`${HOMES[kind]}.${id}.`) || place.startsWith(`${HOMES[kind]}.${id}[`),
      )
      .map((id) => ({ id, kind })),
  );
  const longest = found.sort((a, b) => b.id.length - a.id.length)[0];
  if (!longest) return undefined;
  const called = calledOf(document, longest.kind, longest.id);
  return longest.kind === "bar" ? called : THINGS.named(THINGS.one[longest.kind], called);
}

/** The kinds of things that a job keeps by name, and where. */
export type Kind = Extract<Reference["kind"], "tube" | "die" | "plate" | "point" | "bar">;
export const HOMES: Readonly<Record<Kind, string>> = {
  tube: "tubes",
  die: "dies",
  plate: "plates",
  point: "points",
  bar: "bars",
};

/** The things of one kind, by ID, in their order. */
export function thingsOf(document: JobDocument, kind: Kind): JsonObject {
  const home = entry(document, HOMES[kind]);
  return isObject(home) ? home : {};
}

/** What a person calls a thing: a bar's label, a point's words, else the ID. */
export function calledOf(document: JobDocument, kind: Kind, id: string): string {
  const label = at(document, [HOMES[kind], id, "label"]);
  if (typeof label === "string" && label !== "") return label;
  return kind === "point" ? pointWords(id) : id;
}

/** How far a bar has come; `notched`: the one end that is notched before the other. */
export function comeTo(
  document: JobDocument,
  bar: string,
): { readonly progress: Progress; readonly notched?: End } {
  const said = at(document, [HOMES.bar, bar, "progress"]);
  const progress = PROGRESS.find((p) => p === said) ?? "laid out";
  const notched = at(document, ["made", bar, "to", "notched"]);
  const ends = (["A", "B"] as const).filter((end) => isObject(notched) && Object.hasOwn(notched, end));
  const [one] = ends;
  const isHalf = ends.length === 1 && one && PROGRESS.indexOf(progress) < PROGRESS.indexOf("notched");
  return { progress, ...(isHalf ? { notched: one } : {}) };
}

/** What findings name, as a person calls it. */
export const namesIn = (document: JobDocument): Names => labels((id) => calledOf(document, "bar", id));

/** The wanted ID, or with the first number behind it that is free. */
export function freeId(document: JobDocument, kind: Kind, wanted: string): string {
  const taken = thingsOf(document, kind);
  let id = wanted;
  for (let n = 2; Object.hasOwn(taken, id); n++) id = `${wanted}-${n}`;
  return id;
}

/** An ID from what a person calls a thing: "Rear stay, left" gives rear-stay-left. */
export const idFrom = (label: string): string => slug(label) || "new";

/** A label made of another one, which gives way where both together would be too long. */
export const labelWith = (label: string, more: string): string =>
  `${[...label]
    .slice(0, MOST.label - more.length - 2)
    .join("")
    .trimEnd()}, ${more}`;

const SIDES: Readonly<Record<string, string>> = { left: "right", right: "left", l: "r", r: "l" };

/** The name of a thing's mirror image: left and right (or -l and -r) change places; undefined where it names no side. */
export function otherSide(name: string): string | undefined {
  const turned = name.replace(/left|right|(?<=[-_ ])[lr]$/gi, (side) => {
    const other = SIDES[side.toLowerCase()] ?? side;
    const isLower = side.charAt(0) === side.charAt(0).toLowerCase();
    return isLower ? other : capital(other);
  });
  return turned === name ? undefined : turned;
}

/** Everything in the document that names one thing. */
export const usersOf = (document: JobDocument, kind: Kind, id: string): readonly Reference[] =>
  referencesOf(document).filter((r) => r.kind === kind && r.name === id);

/**
 * The bars that stand or hang on a thing, each once for every way in which it does. A mirrored bar lands on the twin
 * of what its original lands on, though it does not say so itself.
 */
export function dependentsOf(document: JobDocument, kind: Kind, id: string): readonly Dependent[] {
  const found = new Map<string, Dependent>();
  const add = (bar: string, how: Need, loose = false): void => {
    found.set(`${how} ${bar}`, { bar, how, ...(loose ? { loose } : {}) });
  };
  for (const user of usersOf(document, kind, id)) {
    if (user.bar !== undefined) add(user.bar, howOf(user), howOf(user) === "coped");
  }
  const twin = kind === "bar" ? twinOf(document, id) : undefined;
  if (twin === undefined) return [...found.values()];
  const mirrors = entries(thingsOf(document, "bar")).map(([bar, b]) => [bar, entry(b, "mirrorOf")] as const);
  for (const user of usersOf(document, "bar", twin)) {
    // a name in the order of fitting, in a reading or in the body is of no bar
    if (user.bar === undefined) continue;
    if (user.link === "follow" || user.link === "mirror" || user.path.includes("toward")) continue;
    for (const [bar, original] of mirrors) if (original === user.bar && bar !== id) add(bar, howOf(user));
  }
  return [...found.values()];
}

/** The bar that is a bar's mirror image, or its original. */
function twinOf(document: JobDocument, id: string): string | undefined {
  const bars = thingsOf(document, "bar");
  const original = at(bars, [id, "mirrorOf"]);
  if (typeof original === "string") return original;
  return entries(bars).find(([, bar]) => entry(bar, "mirrorOf") === id)?.[0];
}

function howOf({ kind, link, path }: Reference): Need {
  if (path.includes("toward")) return "toward";
  if (link === "land on") return "on";
  if (link === "follow") return "follow";
  if (link === "mirror") return "mirror";
  if (kind === "bar") return "coped";
  return kind === "plate" || kind === "point" ? kind : "use";
}

/** The document with every mention of one thing under another name; the thing itself too, in its place. */
export function renamed(document: JobDocument, kind: Kind, from: string, to: string): JobDocument {
  const users = usersOf(document, kind, from);
  // keys last, since the paths to what stands below them lead over the old name
  const ordered = [...users.filter((u) => !u.isKey), ...users.filter((u) => u.isKey)];
  const named = ordered.reduce<Json>(
    (doc, { path, isKey }) => (isKey ? rekeyAt(doc, path, to) : replaceAt(doc, path, to)),
    document,
  ) as JobDocument;
  const things = Object.entries(thingsOf(named, kind)).map(([id, thing]) => [id === from ? to : id, thing]);
  return { ...named, [HOMES[kind]]: Object.fromEntries(things) as JsonObject };
}

/** Replaces what stands at a path that is known to be there. */
function replaceAt(value: Json, path: JsonPath, to: Json): Json {
  const [step, ...rest] = path;
  if (step === undefined) return to;
  const inner = replaceAt(entry(value, step) ?? null, rest, to);
  if (typeof step === "number") return (value as readonly Json[]).map((v, i) => (i === step ? inner : v));
  return Object.fromEntries(Object.entries(value as JsonObject).map(([k, v]) => [k, k === step ? inner : v]));
}

/** Gives what stands at the end of a path another key there, in its place. */
function rekeyAt(value: Json, path: JsonPath, to: string): Json {
  const home = path.slice(0, -1);
  const from = path[path.length - 1];
  const things = entries(at(value, home)).map(([key, thing]) => [key === from ? to : key, thing]);
  return replaceAt(value, home, Object.fromEntries(things) as JsonObject);
}
