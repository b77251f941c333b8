import { at, isObject, type JobDocument, type Json } from "../document/index.ts";

/** From a version to the one after it. */
type Step = (document: JobDocument) => JobDocument;

/** Steps by the version that they start from. Version 1 is the first and the present one: there is none yet. */
const STEPS: ReadonlyMap<number, Step> = new Map();

/** An older job file's document as one of the present version; whatever is not that is for `readJob` to judge. */
export function upgraded(document: Json, steps = STEPS): Json {
  let next = document;
  for (;;) {
    const version = at(next, ["version"]);
    const step = typeof version === "number" ? steps.get(version) : undefined;
    if (!step || !isObject(next)) return next;
    next = { ...step(next), version: (version as number) + 1 };
  }
}
