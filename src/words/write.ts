import type { Quantity, Writer } from "../core/findings/index.ts";
import { directionWords } from "./direction.ts";
import type { Names } from "./names.ts";
import { PHRASES } from "./phrases.ts";
import { inLine } from "./text.ts";

/** A value as text: with its unit, by its name, or as the part of a sentence that it stands for. */
export function written(value: Quantity, writer: Writer, names: Names): string {
  if ("mm" in value) return writer.length(value.mm);
  if ("deg" in value) return angle(value.deg, value.figures, writer);
  if ("count" in value) return String(value.count);
  if ("ratio" in value) return value.ratio.toFixed(1);
  if ("text" in value) return value.text;
  if ("at" in value) {
    const [x, y, z] = value.at.map(writer.length);
    return `x ${x}, y ${y}, z ${z}`;
  }
  if ("way" in value) return directionWords(value.way);
  if ("list" in value) {
    const { list, most = list.length, or } = value;
    const items = list.map((item) => written(item, writer, names));
    if (or) return items.join(" or ");
    return items.length > most
      ? `${items.slice(0, most).join(", ")} and ${items.length - most} more`
      : inLine(items);
  }
  if ("phrase" in value) return filled(PHRASES[value.phrase], value.values ?? {}, writer, names);
  return names(value);
}

const angle = (deg: number, figures: number | undefined, writer: Writer): string =>
  figures === undefined ? writer.angle(deg) : `${Number(deg.toPrecision(figures))}°`;

/** A sentence with its values written where it names them in braces. */
export function filled(
  sentence: string,
  values: Readonly<Record<string, Quantity>>,
  writer: Writer,
  names: Names,
): string {
  return sentence.replace(/\{(\w+)\}/g, (_, name: string) => {
    const value = values[name];
    if (value === undefined) throw new Error(`"${sentence}" lacks its value "${name}"`);
    return written(value, writer, names);
  });
}
