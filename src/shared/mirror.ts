import * as Y from "yjs";
import { entries, isList, isObject, type JobDocument, type Json, type JsonObject, same } from "./json.ts";

/**
 * How the job's JSON is cut up into shared parts: two edits of different parts both live; of two edits of one part
 * the later one counts. A `map` merges key by key, a `list` entry by entry, what is `whole` is replaced as one.
 * `standing` parts are there from the start, since two people who first make a part at the same time would each
 * make their own, and one of them would be lost with all that is in it. (docs/decisions/shared-document.md)
 */
type Shape = "whole" | "list" | MapShape;
interface MapShape {
  readonly standing: ReadonlyMap<string, Shape>;
  readonly other: Shape;
}
const map = (other: Shape, standing: Readonly<Record<string, Shape>> = {}): MapShape => ({
  standing: new Map(Object.entries(standing)),
  other,
});

const keys = map("whole");
const JOB: MapShape = map("whole", {
  show: keys,
  tubes: map(keys),
  dies: map(keys),
  plates: map(keys),
  // A place and its ± belong to one reading: half of one and half of another is a point that nobody measured.
  points: map("whole"),
  bars: map(keys),
  readings: "list",
  made: map(map("whole", { bent: "list", tacked: "list" })),
  bender: keys,
  notcher: keys,
  shop: map("whole", { errors: keys }),
  rack: "list",
  body: map("whole", { lines: keys, skin: keys }),
  driver: keys,
});

/** Key of every shared map under which the order of its keys stands. No ID and no key of a job is empty. */
const ORDER = "";

/** What is whole goes in wrapped: Yjs asks an object for its `constructor`, and a reading may have a key of that name. */
const pack = (value: Json): Json => (typeof value === "object" && value !== null ? [value] : value);
const unpack = (value: unknown): Json => (Array.isArray(value) ? value[0] : value) as Json;

/** The shared map that mirrors the job. */
export const rootOf = (doc: Y.Doc): Y.Map<unknown> => doc.getMap("job");

/** A new shared document with this job in it. */
export function fromJson(document: JobDocument): Y.Doc {
  const doc = new Y.Doc();
  doc.transact(() => {
    stand(rootOf(doc), JOB);
    reconcile(rootOf(doc), JOB, document);
  });
  return doc;
}

/** The job in a shared document, keys in the order in which they were written. */
export const toJson = (doc: Y.Doc): JobDocument => mapJson(rootOf(doc), JOB);

/** The name of the job in a shared document, without the rest. */
export function nameIn(doc: Y.Doc): string | undefined {
  const name = rootOf(doc).get("name");
  return typeof name === "string" ? name : undefined;
}

/** Makes a shared document say what `next` says, touching only the parts that differ. In one transaction of `origin`. */
export function write(doc: Y.Doc, next: JobDocument, origin: unknown): void {
  doc.transact(() => reconcile(rootOf(doc), JOB, next), origin);
}

function stand(target: Y.Map<unknown>, shape: MapShape): void {
  for (const [key, part] of shape.standing) {
    if (part === "list") target.set(key, new Y.Array());
    if (typeof part === "string") continue;
    const inner = new Y.Map<unknown>();
    target.set(key, inner);
    stand(inner, part);
  }
}

const orderOf = (source: Y.Map<unknown>): readonly string[] =>
  (source.get(ORDER) as string[] | undefined) ?? [];

function mapJson(source: Y.Map<unknown>, shape: MapShape): JsonObject {
  const listed = orderOf(source);
  // Where two people added something at once, one list of the order won, and the other's additions are not in it.
  const unlisted = [...source.keys()].filter((key) => key !== ORDER && !listed.includes(key)).sort();
  const out: [string, Json][] = [];
  for (const key of [...listed, ...unlisted]) {
    if (!source.has(key)) continue;
    const value = valueJson(source.get(key), shape.standing.get(key) ?? shape.other);
    const empty = (isObject(value) || isList(value)) && Object.keys(value).length === 0;
    if (empty && shape.standing.has(key) && !listed.includes(key)) continue;
    out.push([key, value]);
  }
  return Object.fromEntries(out);
}

function valueJson(value: unknown, shape: Shape): Json {
  if (value instanceof Y.Map) return mapJson(value, typeof shape === "string" ? keys : shape);
  return value instanceof Y.Array ? value.toArray().map(unpack) : unpack(value);
}

function reconcile(target: Y.Map<unknown>, shape: MapShape, next: JsonObject): void {
  for (const key of target.keys()) {
    if (key === ORDER || Object.hasOwn(next, key)) continue;
    const part = shape.standing.get(key);
    if (part === undefined || part === "whole") target.delete(key);
    else set(target, key, part, part === "list" ? [] : {});
  }
  for (const [key, value] of entries(next)) set(target, key, shape.standing.get(key) ?? shape.other, value);
  const order = Object.keys(next);
  if (!same(order, orderOf(target))) target.set(ORDER, order);
}

function set(target: Y.Map<unknown>, key: string, shape: Shape, value: Json): void {
  const current = target.get(key);
  if (typeof shape === "object" && isObject(value)) {
    const inner = current instanceof Y.Map ? current : target.set(key, new Y.Map<unknown>());
    reconcile(inner as Y.Map<unknown>, shape, value);
  } else if (shape === "list" && isList(value)) {
    const list = current instanceof Y.Array ? current : target.set(key, new Y.Array<Json>());
    reconcileList(list as Y.Array<Json>, value);
  } else if (current instanceof Y.AbstractType || !same(unpack(current), value)) {
    target.set(key, pack(value));
  }
}

/** Replaces the stretch between what stays at the front and what stays at the back. */
function reconcileList(list: Y.Array<Json>, next: readonly Json[]): void {
  const now = list.toArray().map(unpack);
  const shorter = Math.min(now.length, next.length);
  let front = 0;
  while (front < shorter && same(now[front], next[front])) front++;
  let back = 0;
  while (back < shorter - front && same(now[now.length - 1 - back], next[next.length - 1 - back])) back++;
  if (now.length > front + back) list.delete(front, now.length - front - back);
  if (next.length > front + back) list.insert(front, next.slice(front, next.length - back).map(pack));
}

/** What stands at a path of shared maps (keys from the job's top), as JSON. */
export function valueAt(doc: Y.Doc, path: readonly string[]): Json | undefined {
  let here: unknown = rootOf(doc);
  let shape: Shape = JOB;
  for (const key of path) {
    if (!(here instanceof Y.Map) || !here.has(key)) return undefined;
    here = here.get(key);
    shape = typeof shape === "string" ? "whole" : (shape.standing.get(key) ?? shape.other);
  }
  return valueJson(here, shape);
}
