import { parseLength } from "../../core/units/index.ts";

/**
 * Outside diameter and wall that a tube's name says, as typed: "40x2", "1.75 × 0.095", "45x2.5 CDS". A number without
 * a unit is in the unit of the job. Undefined where the name says none, or none that can be a tube.
 */
export function sizesIn(
  name: string,
  unit: "mm" | "in",
): { readonly od: number | string; readonly wall: number | string } | undefined {
  const said = /(\d+(?:[.,]\d+)?)\s*[x×*]\s*(\d+(?:[.,]\d+)?)/i.exec(name);
  if (!said) return undefined;
  const [od, wall] = [said[1] ?? "", said[2] ?? ""].map((text) => text.replace(",", "."));
  if (od === undefined || wall === undefined) return undefined;
  const inMm = [od, wall].map((text) => parseLength(text, unit));
  const [o, w] = inMm.map((read) => (read.ok ? read.mm : Number.NaN));
  if (o === undefined || w === undefined || !(w > 0 && 2 * w < o)) return undefined;
  return unit === "mm" ? { od: Number(od), wall: Number(wall) } : { od: `${od} in`, wall: `${wall} in` };
}
