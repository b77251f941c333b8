import type { Place } from "../../../core/job/index.ts";
import { mmOf } from "../../kit/index.ts";
import { at, type Json } from "../../model/document/index.ts";

/** Whole millimetres: what is put in for a person to change. */
export const whole = (x: number): number => Math.round(x) + 0;

/** The place that a list of three lengths, or the list at `at`, comes to (mm). */
export function placeIn(value: Json | undefined): Place | undefined {
  const list = Array.isArray(value) ? (value as readonly Json[]) : at(value ?? null, ["at"]);
  if (!Array.isArray(list)) return undefined;
  const [x, y, z] = list.map(mmOf);
  return x === undefined || y === undefined || z === undefined ? undefined : [x, y, z];
}
