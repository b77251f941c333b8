import { entries, isObject, type JobDocument, type Json, same } from "./json.ts";

/** Parts of a job that marking progress changes: what is made of a bar, and the counts of its cards. */
const MARKED: ReadonlySet<string> = new Set(["made", "cards"]);

/** Whether an edit marks progress and does nothing else, for devices that may do no more. */
export const marksOnly = (before: JobDocument, after: JobDocument): boolean =>
  same(unmarked(before), unmarked(after));

function unmarked(document: JobDocument): Json {
  const kept = entries(document).filter(([key]) => !MARKED.has(key));
  return Object.fromEntries(
    kept.map(([key, value]) => [key, key === "bars" ? withoutProgress(value) : value]),
  );
}

const withoutProgress = (bars: Json): Json =>
  Object.fromEntries(
    entries(bars).map(([id, bar]) => [
      id,
      isObject(bar) ? Object.fromEntries(entries(bar).filter(([key]) => key !== "progress")) : bar,
    ]),
  );
