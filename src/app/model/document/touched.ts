import { PROGRESS, type Progress, stands } from "../../../core/job/index.ts";
import { at, isObject, type JobDocument, type Json, type JsonObject } from "../../../shared/index.ts";
import { thingsOf } from "./names.ts";

/** Parts of a job that no bar's figures come from. */
const BESIDE: ReadonlySet<string> = new Set([
  "name",
  "show",
  "made",
  "cards",
  "rack",
  "order",
  "body",
  "driver",
]);
/** Keys of a bar that its figures do not come from. */
const UNFIGURED: ReadonlySet<string> = new Set(["label", "needs", "progress"]);
/** How far a bar has come, as its rank. */
const reached = (document: JobDocument, id: string): number =>
  Math.max(0, PROGRESS.indexOf(at(document, ["bars", id, "progress"]) as Progress));

const isFast = (document: JobDocument, id: string): boolean =>
  stands(at(document, ["bars", id, "progress"]) as Progress | undefined);

const known = new WeakMap<JobDocument, boolean>();

/** Whether any bar of the job is made, from the first saw cut on. Asked at every change of the page: told once a document. */
export function isAnyMade(document: JobDocument): boolean {
  const is =
    known.get(document) ?? Object.keys(thingsOf(document, "bar")).some((id) => reached(document, id) > 0);
  known.set(document, is);
  return is;
}

/** Bars that an edit takes back by a step or more. */
export const takenBack = (before: JobDocument, after: JobDocument): readonly string[] =>
  Object.keys(thingsOf(before, "bar")).filter(
    (id) => Object.hasOwn(thingsOf(after, "bar"), id) && reached(after, id) < reached(before, id),
  );

/** Bars whose own place as built an edit keeps, changes or forgets. */
export function builtBy(before: JobDocument, after: JobDocument): readonly string[] {
  const [was, is] = [before.asBuilt, after.asBuilt].map((built) => (isObject(built) ? built : {}));
  return Object.keys({ ...was, ...is }).filter((id) => was?.[id] !== is?.[id]);
}

/** Whether an edit may change what is wanted of any bar. Parts that it left alone are the same objects. */
export function touchesPlan(before: JobDocument, after: JobDocument): boolean {
  const keys = (a: JsonObject, b: JsonObject) => new Set([...Object.keys(a), ...Object.keys(b)]);
  const others = [...keys(before, after)].filter((key) => key !== "bars" && !BESIDE.has(key));
  if (others.some((key) => before[key] !== after[key])) return true;
  const [was, is] = [thingsOf(before, "bar"), thingsOf(after, "bar")];
  return [...keys(was, is)].some((id) => was[id] !== is[id] && isFigured(was[id], is[id])) || cutsLoose();

  function isFigured(a: Json | undefined, b: Json | undefined): boolean {
    if (!isObject(a) || !isObject(b)) return true;
    return [...keys(a, b)].some((key) => !UNFIGURED.has(key) && a[key] !== b[key]);
  }
  function cutsLoose(): boolean {
    return takenBack(before, after).some((id) => isFast(before, id) && !isFast(after, id));
  }
}
