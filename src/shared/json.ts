/** Plain JSON, never changed in place: an edit shares every part that it leaves alone. */
export type Json = null | boolean | number | string | readonly Json[] | JsonObject;
export interface JsonObject {
  readonly [key: string]: Json;
}

/** A job as its file has it, lengths as they were typed. `readJob` says whether it is one. */
export type JobDocument = JsonObject;

/** Keys and indices from the document's top. */
export type JsonPath = readonly (string | number)[];

export const isObject = (value: Json | undefined): value is JsonObject =>
  typeof value === "object" && value !== null && !Array.isArray(value);

export const isList = (value: Json | undefined): value is readonly Json[] => Array.isArray(value);

/** An own entry only: a bar may well be called `constructor`. */
export const entry = (value: Json | undefined, key: string | number): Json | undefined =>
  typeof value === "object" && value !== null && Object.hasOwn(value, key)
    ? (value as Record<string | number, Json>)[key]
    : undefined;

export const at = (document: Json, path: JsonPath): Json | undefined =>
  path.reduce<Json | undefined>(entry, document);

/** An object's entries, in order; none where no object stands. */
export const entries = (value: Json | undefined): readonly (readonly [string, Json])[] =>
  isObject(value) ? Object.entries(value) : [];

/** The same to the letter, the order of keys included. */
export const same = (a: Json | undefined, b: Json | undefined): boolean =>
  a === b || JSON.stringify(a) === JSON.stringify(b);

/** An object with one entry set in its place (new ones last), or taken out. */
export function withEntry(value: JsonObject, key: string, to: Json | undefined): JsonObject {
  if (to !== undefined && Object.hasOwn(value, key))
    return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, k === key ? to : v]));
  const rest = Object.entries(value).filter(([k]) => k !== key);
  return Object.fromEntries(to === undefined ? rest : [...rest, [key, to]]);
}

/** `after`, with every part that equals its counterpart in `before` taken from there, so that what is equal is the same. */
export function share<T extends Json>(before: Json | undefined, after: T): T {
  if (Object.is(before, after) || before === undefined) return after;
  if (isList(after) && isList(before)) {
    const list = after.map((value, i) => share(before[i], value));
    return (list.length === before.length && list.every((v, i) => v === before[i]) ? before : list) as T;
  }
  if (!isObject(after) || !isObject(before)) return after;
  const shared = Object.entries(after).map(([k, v]) => [k, share(entry(before, k), v)] as const);
  const keys = Object.keys(before);
  const equal =
    keys.length === shared.length && shared.every(([k, v], i) => keys[i] === k && before[k] === v);
  return (equal ? before : Object.fromEntries(shared)) as T;
}

/** The job as the text of a file: JSON, two blanks, a newline at the end, as the command line writes it. */
export const jobText = (document: Json): string => `${JSON.stringify(document, null, 2)}\n`;

/** What a person calls a thing as a word for an ID or a file: "Rear stay, left" gives rear-stay-left; nothing of "!". */
export const slug = (label: string): string =>
  [...label.toLowerCase().replace(/[^\p{L}\p{N}.]+/gu, "-")]
    .slice(0, 60)
    .join("")
    .replace(/^-+|-+$/g, "");
