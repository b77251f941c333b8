import { FIELDS } from "../../../words/index.ts";
import type { JobDocument } from "../../model/document/index.ts";
import { type Field, length, maybe } from "../field.ts";

export function tube(_: JobDocument, id: string): readonly Field[] {
  const base = ["tubes", id];
  return [
    length([...base, "od"], FIELDS.od),
    length([...base, "wall"], FIELDS.wall, { fine: true }),
    { kind: "text", path: [...base, "material"], label: FIELDS.material },
    maybe([...base, "stick"], FIELDS.stick),
  ];
}
