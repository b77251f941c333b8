import { DIE_PAGE } from "../../words/index.ts";
import { recall, remember } from "../kit/index.ts";
import { entries, isObject, type JobDocument, type Json, newJobOf } from "../model/document/index.ts";

const KEY = "die";

/** A job that is one die, with example sizes to type over. */
export function dieJob(length: "mm" | "in", shop?: JobDocument): JobDocument {
  const mm = length === "mm";
  const { shop: figures } = newJobOf("", { length, fraction: 16 }, shop);
  return {
    format: "tubewright job",
    version: 2,
    name: DIE_PAGE.job,
    show: { length, fraction: 16 },
    dies: {
      [DIE_PAGE.name]: { od: mm ? 40 : "1 3/4 in", clr: mm ? 120 : "6 in", example: ["od", "clr"] },
    },
    // the errors of its readings: those of the shop where they are known
    ...(isObject(figures) && figures.errors !== undefined ? { shop: { errors: figures.errors } } : {}),
  };
}

/** The die of such a job, and what it is called. */
export const dieIn = (document: JobDocument): readonly [id: string, die: Json] =>
  entries(document.dies)[0] ?? [DIE_PAGE.name, {}];

/** What was entered on this device before, or the start. */
export function recalledDie(length: "mm" | "in", shop?: JobDocument): JobDocument {
  try {
    const kept: Json = JSON.parse(recall(KEY) ?? "null");
    if (isObject(kept) && entries(kept.dies).length === 1) return kept;
  } catch {
    // what cannot be read is begun from the start
  }
  return dieJob(length, shop);
}

export const rememberDie = (document: JobDocument): void => remember(KEY, JSON.stringify(document));
