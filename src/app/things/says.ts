import { ASKED, NOT_SET, SENTENCE, SHOP_SHEET, SIDES } from "../../words/index.ts";
import { mmOf, retyped, type Write } from "../kit/index.ts";
import type { Json } from "../model/document/index.ts";
import { AXES, type Field, type LengthField, type NumberField, optionOf } from "./field.ts";

/** What a figure reads on its button. */
export function saysField(field: Field, value: Json | undefined, write: Write): string {
  if (field.kind === "choice") return optionOf(field, value);
  if (field.kind === "names")
    return Array.isArray(value) && value.length > 0 ? value.map(String).join(", ") : ASKED.none;
  if (value === undefined) return otherwise(field, write) ?? NOT_SET;
  if (field.kind === "text") return String(value);
  if (field.kind === "place") return saysPlace(value, write);
  if (field.kind === "number") return saysNumber(field, Number(value));
  return saysLength(field, value, write);
}

/** What holds where there is none; undefined where it must be there. */
export function otherwise(field: Field, write: Write): string | undefined {
  if (field.kind === "length" && field.usual !== undefined)
    return SHOP_SHEET.usual((field.fine ? write.fine : write.length)(field.usual));
  if (field.kind === "number" && field.usual !== undefined)
    return SHOP_SHEET.usual(`${field.usual}${field.unit}`);
  return "optional" in field ? field.optional : undefined;
}

function saysNumber({ sides, unit }: NumberField, n: number): string {
  if (!sides) return `${n}${unit}`;
  return n === 0 ? `0${unit}` : SENTENCE.sided(`${Math.abs(n)}${unit}`, sides[n < 0 ? 1 : 0]);
}

/** As entered where it was entered with a unit, else in the shop's own; its side after it. */
function saysLength({ sides, fine }: Pick<LengthField, "sides" | "fine">, value: Json, write: Write): string {
  const mm = mmOf(value) ?? 0;
  const size =
    typeof value === "string"
      ? retyped(value, "mm").text
      : (fine ? write.fine : write.length)(sides ? Math.abs(mm) : mm);
  return sides ? SENTENCE.sided(size, sides[mm < 0 ? 1 : 0]) : size;
}

const saysPlace = (value: Json, write: Write): string =>
  AXES.map((axis, k) =>
    saysLength({ sides: SIDES[axis] }, Array.isArray(value) ? (value[k] ?? 0) : 0, write),
  ).join(", ");
