import { NEEDS } from "../../../core/job/index.ts";
import { BAR_SHEET } from "../../../words/index.ts";
import { at, type JobDocument } from "../../model/document/index.ts";
import { degrees, type Field, oneOrSeveral } from "../field.ts";

/** No notcher goes further off square (degrees). */
const MOST = 85;

/** What a bar's sentences do not say: the notch angles believed before the car gives them, and what must hold at its fitting. */
export function bar(document: JobDocument, id: string): readonly Field[] {
  const base = ["bars", id];
  return [
    ...(["A", "B"] as const).flatMap((end): readonly Field[] => {
      const path = [...base, "believed", end];
      const isRange = Array.isArray(at(document, path));
      return [
        ...(isRange
          ? BAR_SHEET.fromTo.map((says, k) => degrees([...path, k], BAR_SHEET.believed(end, says), 0, MOST))
          : [degrees(path, BAR_SHEET.believed(end), 0, MOST, { optional: BAR_SHEET.fromCar })]),
        ...oneOrSeveral(document, path, BAR_SHEET.known(end), [BAR_SHEET.one, BAR_SHEET.range], 2),
      ];
    }),
    {
      kind: "choice",
      path: [...base, "needs"],
      label: BAR_SHEET.needs,
      options: [BAR_SHEET.either, ...NEEDS],
      otherwise: BAR_SHEET.either,
      values: Object.fromEntries(NEEDS.map((n) => [n, n])),
    },
  ];
}
