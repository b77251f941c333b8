import type { Finding, Quantity, Writer } from "../core/findings/index.ts";
import { readAlike } from "./apart.ts";
import { COMPARED } from "./findings/compared.ts";
import { SENTENCES } from "./findings/sentences.ts";
import type { Names } from "./names.ts";
import { filled, written } from "./write.ts";

/**
 * The finding as text, its lengths by `writer`, what it names by `names`. Where two values that its sentence compares
 * would read alike though they differ, both are written finer.
 */
export function say({ code, values }: Finding, writer: Writer, names: Names): string {
  const { finer } = writer;
  const alike = (COMPARED[code] ?? []).filter(([a, b]) => areAlike(values[a], values[b], writer));
  if (!finer || alike.length === 0) return filled(SENTENCES[code], values, writer, names);
  const exact = new Set(alike.flat());
  const inFull = Object.entries(values).map(([name, value]): [string, Quantity] => [
    name,
    exact.has(name) ? { text: written(value, { ...writer, ...finer }, names) } : value,
  ]);
  return filled(SENTENCES[code], Object.fromEntries(inFull), writer, names);
}

function areAlike(a: Quantity | undefined, b: Quantity | undefined, writer: Writer): boolean {
  if (a && b && "mm" in a && "mm" in b) return readAlike([a.mm, b.mm], writer.length);
  return a && b && "deg" in a && "deg" in b ? readAlike([a.deg, b.deg], writer.angle) : false;
}
