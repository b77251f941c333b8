import { parseLength } from "../../core/units/index.ts";

/** A figure as it is typed in a name: whole, with a point, or an inch fraction; never the end of a longer one. */
const FIGURE = String.raw`(?<![\d.,/-])((?:\d+[ -]+)?\d+/\d+|\d+(?:[.,]\d+)?)`;
const SIZES = new RegExp(String.raw`${FIGURE}\s*[x×*]\s*${FIGURE}(?![\d/])`, "i");

/** Outside diameters of tubes that cages are made of (mm), with room on both sides: a name of other figures says none. */
const LEAST = 6;
const MOST = 200;

/**
 * Outside diameter and wall that a tube's name says, as typed: "40x2", "1.75 × 0.095", "1 3/4 x 0.095", "45x2.5 CDS". A
 * number without a unit is in the unit of the job. Undefined where the name says none, or none that can be a tube.
 */
export function sizesIn(
  name: string,
  unit: "mm" | "in",
): { readonly od: number | string; readonly wall: number | string } | undefined {
  const said = SIZES.exec(name);
  if (!said) return undefined;
  const [od, wall] = [said[1] ?? "", said[2] ?? ""].map((text) => text.replace(",", ".").replace("-", " "));
  if (od === undefined || wall === undefined) return undefined;
  // Fractions are said of inches: beside millimetres nobody can tell what was meant.
  if (unit === "mm" && /\//.test(od + wall)) return undefined;
  const inMm = [od, wall].map((text) => parseLength(text, unit));
  const [o, w] = inMm.map((read) => (read.ok ? read.mm : Number.NaN));
  if (o === undefined || w === undefined || !(w > 0 && 2 * w < o && o >= LEAST && o <= MOST))
    return undefined;
  return unit === "mm" ? { od: Number(od), wall: Number(wall) } : { od: `${od} in`, wall: `${wall} in` };
}
