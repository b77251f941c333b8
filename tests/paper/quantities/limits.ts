import type { Place } from "../scan.ts";
import type { BarFacts } from "../second/index.ts";
import { type Answer, mm } from "./answer.ts";

/** A swing is followed place by place, on paper and here (mm). */
const SWING = 5;

/** Findings of the bender, of a follower, of a landing. */
export function ofLimits(f: BarFacts, quantity: string, place: Place): Answer {
  const [kind, code, key] = quantity.split(".");
  if (kind === "follow" && code === "departs") {
    const d = f.laid.departs.find((x) => x.corner === place.bend);
    const asked = f.laid.own.follow?.gap ?? 0;
    return d && mm(key === "gap" ? d.gap : d.gap - asked);
  }
  if (kind !== "limit") return undefined;
  const found = f.limits.filter((l) => l.code === code);
  const one = found.find(
    (l) => place.bend === undefined || l.figures.bend === undefined || l.figures.bend === place.bend,
  );
  const value = one?.figures[key!];
  return typeof value === "number"
    ? mm(value, code === "swing" && key !== "beside" ? SWING : undefined)
    : undefined;
}
