import type { Place } from "../scan.ts";
import type { BarFacts, End } from "../second/index.ts";
import { halfTurn } from "../second/vec.ts";
import { type Answer, claim, mm, ON, words } from "./answer.ts";

export function ofCrowd(f: BarFacts, end: End, quantity: string, place: Place): Answer {
  const one = f.notch(end)!.crowd.find((c) => c.host === place.host);
  if (!one) return undefined;
  const { cut, hole } = one;
  const phi = halfTurn(cut.clock);
  switch (quantity) {
    case "crowd.saw":
      return mm(2 * cut.radius);
    case "crowd.notch":
      return mm(cut.notch);
    case "crowd.clockAbs":
      return mm(Math.abs(phi), 0.002);
    case "crowd.clockWay":
      return words(phi > 0 ? "counter-clockwise" : "clockwise");
    case "crowd.onZero":
      return claim(Math.abs(phi) < ON);
    case "crowd.opposite":
      return claim(180 - Math.abs(phi) < ON);
    case "crowd.offsetAbs":
      return mm(Math.abs(cut.offset), 0.001);
    case "crowd.offsetWay":
      return words(cut.offset > 0 ? "ccw" : "cw");
    case "crowd.noOffset":
      return claim(Math.abs(cut.offset) < 0.006);
    case "crowd.sawn":
      return mm(Math.abs(hole.fromSawn));
    case "crowd.inside":
      return claim(hole.fromSawn >= 0);
    case "crowd.off":
      return claim(hole.fromSawn < 0);
    default:
      return undefined;
  }
}
