import type { Place } from "../scan.ts";
import { setFor } from "../second/bender.ts";
import type { BarFacts } from "../second/index.ts";
import { type Answer, claim, DEG, mm, words } from "./answer.ts";

export function ofBends(f: BarFacts, quantity: string, place: Place, turnSide: string): Answer {
  const { laid } = f;
  if (quantity === "step.next") return mm(f.order[(place.step as number | undefined) ?? 0]);
  if (quantity === "turnSide") return words(turnSide);
  const round = quantity.startsWith("round.");
  const n = round ? f.order[1] : place.bend;
  if (n === undefined) return undefined;
  const bend = laid.line.bends[n - 1];
  if (!bend) return undefined;
  const turn = round ? f.round : f.turns.find((t) => t.bend === n);
  if (quantity === "check.between" || quantity === "check.parallelLead") {
    const leg = quantity === "check.between" ? `${place.legFrom}-${place.legTo}` : `end ${f.lead}`;
    return mm(f.checks.get(n)?.find((c) => c.kind === `parallel ${leg}`)?.value);
  }
  if (quantity === "bend.after") return mm(f.order[f.order.indexOf(n) + 1]);
  if (quantity.startsWith("check.")) {
    const value = f.checks.get(n)?.find((c) => c.kind === quantity.slice(6))?.value;
    return mm(value);
  }
  const set = setFor(laid.die, bend.angle * DEG);
  switch (quantity) {
    case "bend":
      return mm(n);
    case "mark":
      return mm(f.marks[f.lead].get(n));
    case "markA":
      return mm(f.marks.A.get(n));
    case "markB":
      return mm(f.marks.B.get(n));
    case "order":
      return mm(f.order.indexOf(n) + 1);
    case "angle":
      return mm(bend.angle * DEG);
    case "set":
      return mm(set?.set);
    case "set.sd":
      return mm(set?.sd, 0.0006);
    case "set.measured":
      return claim(set?.sd !== undefined);
    case "set.known":
      return claim(set !== undefined);
    case "set.unknown":
      return claim(set === undefined);
    case "rotation":
      return mm(bend.rotation * DEG);
    case "straightBefore":
      return mm(bend.straightBefore);
    case "turn.orNone":
      return mm(turn?.amount ?? 0);
    case "turn.wayOrNone":
      return words(turn?.way ?? "");
    default:
  }
  if (!turn) return quantity === "turn.first" ? claim(f.order[0] === n) : undefined;
  switch (quantity.replace("round.", "turn.")) {
    case "turn.first":
      return claim(false);
    case "turn.last":
      return mm(turn.last);
    case "turn.amount":
      return mm(turn.amount);
    case "turn.way":
      return words(turn.way);
    case "turn.none":
      return claim(turn.amount === 0);
    case "turn.half":
      return claim(turn.amount === 180);
    case "turn.round":
      return mm(turn.round);
    case "turn.above":
      return mm(turn.above);
    case "turn.below":
      return mm(-turn.above);
    case "turn.side":
      return words(turn.side);
    case "turn.level":
      return claim(turn.above === 0 && turn.side !== "");
    case "turn.up":
      return claim(turn.side === "" && turn.above > 0);
    case "turn.down":
      return claim(turn.side === "" && turn.above < 0);
    default:
      return undefined;
  }
}
