import { printed } from "../figure.ts";
import type { Place } from "../scan.ts";
import type { ClashOf, Second } from "../second/index.ts";
import { closestOn } from "../second/line.ts";
import { apart, type V } from "../second/vec.ts";
import { type Answer, claim, mm, words } from "./answer.ts";

/** The deepest place lies on a flat: it is found to this, and how deep it is much nearer (mm). */
const FLAT = 1;
const DEEP = 0.05;
/** A place told to tenths leaves its stations as open (mm); in inches by half of the fraction. */
const TOLD = 0.1;

const nameOf = (second: Second, id: unknown): string | undefined =>
  id === undefined || id === "" ? undefined : second.called(id as string);

/** Where bars, or a bar and a plate, want the same room. */
export function ofClash(second: Second, quantity: string, place: Place): Answer {
  const [code, key] = quantity.split(".");
  if (!code?.startsWith("clash") || key === undefined) return undefined;
  if (key === "bar") return words(nameOf(second, place.clashBar));
  if (key === "other") return words(nameOf(second, place.clashOther));
  if (place.clashX === undefined) return undefined;
  const texts = [place.clashX, place.clashY, place.clashZ] as string[];
  const read = texts.map((t) => printed(t, second.job.fraction));
  const at = read.map((p) => p.value) as unknown as V;
  const half = Math.max(...read.map((p) => p.half));
  const one = meant(second, code, place, at);
  if (!one) return undefined;
  const asFine = read.every(
    (p) => p.half <= (second.job.inch ? 25.4 / second.job.fraction / 2 : 0.05) + 1e-9,
  );
  const along = (bar: string): number => closestOn(second.laid.get(bar)!.line, at).s;
  switch (key) {
    case "place":
      return claim(asFine && apart(one.at, at) <= FLAT + half);
    case "by":
      return mm(one.by, DEEP);
    case "along":
      return one.code === "clash-self" ? mm(one.along, FLAT) : mm(along(one.bar), TOLD + 2 * half);
    case "otherAlong":
      return one.code === "clash-self" ? mm(one.otherAlong, FLAT) : mm(along(one.other!), TOLD + 2 * half);
    default:
      return undefined;
  }
}

/** The overlap that a sentence is about: of what it names, the nearest to where it says; it concerns the sheet's bar. */
function meant(second: Second, code: string, place: Place, at: V): ClashOf | undefined {
  const bar = code === "clash-self" ? place.bar : place.clashBar;
  return second.clashes
    .filter((c) => c.code === code && c.bar === bar && (c.bar === place.bar || c.other === place.bar))
    .filter((c) => code !== "clash" || c.other === place.clashOther)
    .filter((c) => code !== "clash-plate" || c.plate === place.clashPlate)
    .sort((p, q) => apart(p.at, at) - apart(q.at, at))[0];
}
