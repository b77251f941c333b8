import { POINT_SHEET } from "../../../words/index.ts";
import { at, type JobDocument } from "../../model/document/index.ts";
import { coordinates, type Field, length, maybe, oneOrSeveral } from "../field.ts";

/** A point: where it is, and what that place may be off by, alike every way or each way by itself. */
export function point(document: JobDocument, id: string): readonly Field[] {
  const base = ["points", id];
  const sd = [...base, "sd"];
  const isPlaced = Array.isArray(at(document, base)) || at(document, [...base, "at"]) !== undefined;
  const each = Array.isArray(at(document, sd));
  return [
    ...coordinates(Array.isArray(at(document, base)) ? base : [...base, "at"]),
    ...(isPlaced && !each
      ? [{ ...maybe(sd, POINT_SHEET.error, POINT_SHEET.exact), fine: true as const }]
      : []),
    ...oneOrSeveral(document, sd, POINT_SHEET.ways, [POINT_SHEET.alike, POINT_SHEET.each], 3),
    ...(each ? POINT_SHEET.errors.map((label, k) => length([...sd, k], label, { fine: true })) : []),
  ] satisfies readonly Field[];
}
