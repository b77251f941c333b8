import type { Place } from "../scan.ts";
import { setFor } from "../second/bender.ts";
import type { BarFacts, End, Second } from "../second/index.ts";
import { halfTurn } from "../second/vec.ts";
import { type Answer, claim, DEG, mm, words } from "./answer.ts";

/** Figures that differ by less are the same. */
const SAME = 0.05;

/** A figure that is wanted now, where it differs from the one that was made. */
const now = (wanted: number | undefined, made: number | undefined): Answer =>
  wanted === undefined || made === undefined || Math.abs(wanted - made) < SAME ? undefined : mm(wanted);

/** What is read of a bar that is made: what the file keeps of its steps, and where it keeps none, the plan's figures. */
export function ofMade(second: Second, f: BarFacts, quantity: string, place: Place): Answer {
  const { made } = f;
  if (!made) return undefined;
  const { end } = place;
  const sawn = made.sawn?.length ?? f.asPlanned;
  switch (quantity) {
    case "made.progress":
      return words(made.progress);
    case "made.oneEnd": {
      const ends = (["A", "B"] as const).filter((e) => f.isDone(e));
      return words(ends.length === 1 ? ends[0] : undefined);
    }
    case "made.card":
      return otherCard(second, f, lastCard(f));
    case "made.sawn":
      return mm(sawn);
    case "made.sawn.card":
      return otherCard(second, f, made.sawn?.card);
    case "made.bent.card":
      return otherCard(second, f, made.bent?.card);
    case "now.sawn":
      return now(f.asPlanned, sawn);
    case "made.fed":
      return words(made.bent?.fed ?? f.lead);
    case "made.die":
      return words(made.bent?.die.id ?? f.laid.own.die);
    case "made.clr":
      return mm(made.bent?.die.clr ?? f.laid.die?.clr);
    default:
      return quantity.includes(".bend.")
        ? ofBend(f, quantity, Number(place.bend))
        : end && f.isDone(end)
          ? ofNotch(second, f, end, quantity)
          : undefined;
  }
}

const lastCard = ({ made }: BarFacts): number | undefined =>
  (made?.notched?.B ?? made?.notched?.A ?? made?.bent ?? made?.sawn)?.card;

/** The card of a step where the bar's card is another one now. */
function otherCard(second: Second, f: BarFacts, card: number | undefined): Answer {
  const last = second.job.cards[f.laid.id];
  // a code of the file that no figure can give: its card is the next one
  const n = last ? (last.code === "0000" ? last.n + 1 : last.n) : 1;
  return card === undefined || card === n ? undefined : mm(card);
}

function ofBend(f: BarFacts, quantity: string, n: number): Answer {
  const bend = f.laid.line.bends[n - 1];
  if (!bend) return undefined;
  const fed = f.made?.bent?.fed ?? f.lead;
  const angle = bend.angle * DEG;
  const plan = {
    mark: f.planned[fed].get(n),
    angle,
    set: setFor(f.laid.die, angle)?.set,
    turn: bend.rotation * DEG,
  };
  const made = f.made?.bent?.bends.find((b) => b.n === n) ?? plan;
  const [side, , what] = quantity.split(".") as [string, string, keyof typeof plan];
  if (side === "made") return mm(made[what]);
  return what === "turn" ? undefined : now(plan[what], made[what]);
}

function ofNotch(second: Second, f: BarFacts, end: End, quantity: string): Answer {
  const kept = f.made?.notched?.[end];
  if (quantity === "made.notch.card") return otherCard(second, f, kept?.card);
  if (quantity === "made.finished") return mm(kept?.finished ?? f.net);
  if (quantity === "now.finished") return now(f.net, kept?.finished);
  const own = f.notch(end);
  const [keptCut] = kept?.cuts ?? [];
  const planned = own?.cut && {
    diameter: 2 * own.cut.radius,
    angle: own.cut.notch,
    clock: own.cut.clock,
    offset: own.cut.offset,
  };
  const cut = keptCut ?? planned;
  const sawn = keptCut && kept ? kept.over + keptCut.centre : own?.hole?.fromSawn;
  const loose = keptCut ? undefined : own?.loose;
  const clock = cut && halfTurn(cut.clock);
  switch (quantity) {
    case "made.cut.saw":
      return mm(cut?.diameter);
    case "made.cut.notch":
      return mm(cut?.angle, loose);
    case "made.cut.clockAbs":
      return mm(clock === undefined ? undefined : Math.abs(clock), loose);
    case "made.cut.clockWay":
      return words(clock === undefined ? undefined : clock >= 0 ? "counter-clockwise" : "clockwise");
    case "made.cut.onZero":
      return claim(clock !== undefined && Math.abs(clock) < SAME);
    case "made.cut.opposite":
      return claim(clock !== undefined && 180 - Math.abs(clock) < SAME);
    case "made.hole.abs":
      return mm(sawn === undefined ? undefined : Math.abs(sawn), loose);
    case "made.hole.signed":
      return mm(sawn, loose);
    case "made.hole.on":
      return claim(sawn !== undefined && sawn > -0.006);
    case "made.hole.off":
      return claim(sawn !== undefined && sawn < 0.006);
    case "made.cut.offsetAbs":
      return mm(cut && Math.abs(cut.offset), loose);
    case "made.cut.noOffset":
      return claim(cut !== undefined && Math.abs(cut.offset) < 0.0051);
    case "made.cut.offsetWay":
      return words(cut && cut.offset > 0 ? "counter-clockwise" : "clockwise");
    default:
      return undefined;
  }
}
