import { entries, isObject, type JobDocument, type Json, same } from "../../shared/index.ts";
import { HISTORY } from "../../words/index.ts";
import { calledOf } from "../model/document/index.ts";

const MAPS = ["bars", "points", "plates", "tubes", "dies"] as const;
/** Of the file and of no interest to a person. */
const UNSEEN: ReadonlySet<string> = new Set(["format", "version"]);
const KIND = { bars: "bar", points: "point", plates: "plate", tubes: "tube", dies: "die" } as const;
const partOf = (key: string): string => HISTORY.part[key] ?? HISTORY.partOther(key);
const topOf = (key: string): string => HISTORY.job[key] ?? key;

/** What a person calls a part of the job: "Main hoop, its path". */
export function nameOfPart(document: JobDocument, [top = "", id, key]: readonly string[]): string {
  if (id === undefined) return topOf(top);
  if (top === "bars" || top === "made") {
    const bar = calledOf(document, "bar", id);
    if (top === "made") return `${bar}, ${partOf("made")}`;
    return key === undefined ? bar : `${bar}, ${partOf(key)}`;
  }
  const kind = MAPS.find((m) => m === top);
  return kind ? `${topOf(top)} ${calledOf(document, KIND[kind], id)}` : topOf(top);
}

/** A difference between two states of a job. */
export interface Difference {
  readonly says: string;
  /** The bar that it is of. */
  readonly bar?: string;
}

/** What differs between two states of a job, by what a person calls it. */
export function differences(before: JobDocument, after: JobDocument): readonly Difference[] {
  const found: Difference[] = [];
  const tops = new Set([...Object.keys(before), ...Object.keys(after)]);
  for (const top of tops) {
    const [was, is] = [before[top], after[top]];
    if (same(was, is) || UNSEEN.has(top)) continue;
    if (![...MAPS, "made"].includes(top as never)) {
      found.push({ says: topOf(top) });
      continue;
    }
    for (const id of keysOf(was, is)) {
      const [a, b] = [own(was, id), own(is, id)];
      if (same(a, b)) continue;
      const document = b === undefined ? before : after;
      const bar = top === "bars" || top === "made" ? { bar: id } : {};
      if (top !== "bars") found.push({ says: nameOfPart(document, [top, id]), ...bar });
      else if (a === undefined || b === undefined)
        found.push({
          says: `${nameOfPart(document, [top, id])}, ${a === undefined ? HISTORY.added : HISTORY.removed}`,
          ...bar,
        });
      else
        for (const key of keysOf(a, b))
          if (!same(own(a, key), own(b, key)))
            found.push({ says: nameOfPart(document, [top, id, key]), ...bar });
    }
  }
  return found;
}

const keysOf = (a: Json | undefined, b: Json | undefined): readonly string[] => [
  ...new Set([...entries(a), ...entries(b)].map(([key]) => key)),
];
const own = (of: Json | undefined, key: string): Json | undefined =>
  isObject(of) && Object.hasOwn(of, key) ? of[key] : undefined;
