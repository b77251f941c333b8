import { FIELDS } from "../../../words/index.ts";
import { at, type JobDocument, type Json } from "../../model/document/index.ts";
import { coordinates, type Field, maybe, towards } from "../field.ts";

const NOT_SET = FIELDS.notSet;

/** Which way a plate's first side runs, as a fabricator says it; any other way is three numbers. */
const RUNS: Readonly<Record<string, Json>> = {
  [FIELDS.forward]: [1, 0, 0],
  [FIELDS.left]: [0, 1, 0],
  [FIELDS.up]: [0, 0, 1],
};

export function plate(document: JobDocument, id: string): readonly Field[] {
  const base = ["plates", id];
  return [
    ...coordinates([...base, "at"]),
    ...towards([...base, "normal"], FIELDS.faces),
    maybe([...base, "thickness"], FIELDS.thickness),
    ...FIELDS.sizes.map((label, k) => maybe([...base, "size", k], label)),
    {
      kind: "choice",
      path: [...base, "along"],
      label: FIELDS.runs,
      options: [...Object.keys(RUNS), NOT_SET],
      otherwise: NOT_SET,
      values: RUNS,
    },
    ...(at(document, [...base, "along"]) === undefined ? [] : towards([...base, "along"], FIELDS.runsTo)),
  ];
}
