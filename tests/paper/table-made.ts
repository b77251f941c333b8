import type { Wanted } from "./figure.ts";
import { ofMade } from "./quantities/made.ts";
import type { Place } from "./scan.ts";
import type { BarFacts, Second } from "./second/index.ts";

/** Of the tables: a cell of what is made, undefined where nothing is. */
export function tableMade(
  second: Second,
  f: BarFacts,
  quantity: string,
  place: Place,
): string | number | undefined {
  const one = (q: string): string | number | undefined => {
    const found = ofMade(second, f, q, place) as Wanted | undefined;
    return found?.words ?? found?.value;
  };
  if (quantity === "made.step") return f.made?.progress ?? "laid out";
  if (quantity.endsWith(".done")) return f.isDone("bent") ? one(quantity.slice(0, -5)) : undefined;
  const { end } = place;
  if (!end || !f.isDone(end)) return undefined;
  const { joint } = f.cope[end];
  const own = joint.kind !== "on" ? "saw" : f.notch(end)?.useWrap ? "wrap" : "hole saw";
  const by = f.made?.notched?.[end]?.by ?? own;
  if (quantity === "made.method") return by === "saw" ? "flat" : by;
  if (by === "wrap") return undefined;
  if (quantity === "made.offSquare") return by === "saw" ? joint.tilt : one("made.cut.notch");
  return by === "saw" ? undefined : one("made.hole.signed");
}
