import { deg } from "../../core/numeric/index.ts";
import type { BentReading, Telling } from "../../core/trestles/index.ts";
import { asRead, sayBentSize } from "../../words/index.ts";
import type { Write } from "../kit/index.ts";
import { at, isObject, type Json, type JsonObject } from "../model/document/index.ts";

/** A size to be read on a bent bar, without the size: as the job keeps it. */
export type BentDraft =
  | { readonly what: "end-to-end" }
  | { readonly what: "leg"; readonly end: "A" | "B" }
  | { readonly what: "across"; readonly legs: readonly [number, number] }
  | { readonly what: "off-flat"; readonly bend: number; readonly end: "A" | "B" }
  | { readonly what: "angle"; readonly bend: number };

/** A reading of the trestles room without its value. */
export function draftOfReading(reading: BentReading): BentDraft {
  const { value: _, sd: __, ...size } = reading;
  return size as BentDraft;
}

/** Every reading that a bar can give whose bends have these numbers, listed from A. */
export function bentDrafts(bends: readonly number[], fromEnd: "A" | "B"): readonly BentDraft[] {
  const first = fromEnd === "A" ? bends[0] : bends[bends.length - 1];
  if (first === undefined) return [];
  const legs = [0, ...bends].map((_, i) => i + 1);
  return [
    { what: "end-to-end" },
    { what: "leg", end: "A" },
    { what: "leg", end: "B" },
    ...bends.map((bend) => ({ what: "angle", bend }) as const),
    ...legs.flatMap((i) =>
      legs.flatMap((j) => (j > i + 1 ? [{ what: "across", legs: [i, j] } as const] : [])),
    ),
    ...(bends.length > 1
      ? [
          { what: "off-flat", bend: first, end: "A" } as const,
          { what: "off-flat", bend: first, end: "B" } as const,
        ]
      : []),
  ];
}

/** The reading as the job keeps it; a length stays as it was typed. */
export const bentJson = (draft: BentDraft, value: Json): JsonObject =>
  ({ ...draft, ...(draft.what === "angle" ? { angle: value } : { size: value }) }) as JsonObject;

/** A kept reading as a draft again. */
export function draftOfJson(reading: Json): BentDraft | undefined {
  if (!isObject(reading)) return undefined;
  const { size: _, angle: __, struck: ___, note: ____, ...size } = reading;
  return size as unknown as BentDraft;
}

/** The value of a kept reading, as typed. */
const valueRead = (reading: Json): Json | undefined =>
  at(reading, ["what"]) === "angle" ? at(reading, ["angle"]) : at(reading, ["size"]);

/** A kept reading's value as typed, with its unit. */
export const bentAsRead = (reading: Json): string => {
  const value = valueRead(reading);
  return at(reading, ["what"]) === "angle" ? `${String(value)}°` : asRead(value, "tape");
};

/** Of the readings that a job keeps of a bent bar, the last of one size that counts: its place in the list. */
export function lastRead(readings: Json | undefined, draft: BentDraft): number | undefined {
  const key = sayBentSize(draft);
  const list = Array.isArray(readings) ? (readings as readonly Json[]) : [];
  const found = list.findLastIndex((r) => {
    const kept = draftOfJson(r);
    return kept !== undefined && at(r, ["struck"]) !== true && sayBentSize(kept) === key;
  });
  return found < 0 ? undefined : found;
}

/** What a reading is on the bar as planned. */
export const plannedSize = ({ reading: { what, value } }: Telling, write: Write): string =>
  what === "angle" ? write.angle(deg(value)) : write.length(value);
