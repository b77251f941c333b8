import type { Place } from "../scan.ts";
import type { Second } from "../second/index.ts";
import { type Answer, claim, mm, words } from "./answer.ts";
import { ofBar } from "./bar.ts";
import { ofBends } from "./bends.ts";
import { ofClash } from "./clash.ts";
import { ofCut } from "./cut.ts";
import { ofEnd } from "./end.ts";
import { ofLimits } from "./limits.ts";
import { ofMade } from "./made.ts";
import { ofNodes } from "./path.ts";

export interface Around {
  second: Second;
  /** Printed so far by what must say the same everywhere (revisions). */
  seen: Map<string, string>;
  paper: number;
}

/** What a quantity of the label table is at a place of the job. The one list of quantities. */
export function wanted(around: Around, quantity: string, place: Place): Answer {
  const { second } = around;
  const { job } = second;
  const whole = ofJob(around, quantity, place) ?? ofClash(second, quantity, place);
  if (whole) return whole;
  if (place.bar === undefined) return undefined;
  const facts = second.bar(place.bar);
  return (
    ofBar(second, facts, quantity) ??
    ofBends(facts, quantity, place, job.turnSide) ??
    ofMade(second, facts, quantity, place) ??
    ofNodes(second, facts, quantity, place) ??
    ofLimits(facts, quantity, place) ??
    (place.end
      ? (ofEnd(second, facts, place.end, quantity, place) ?? ofCut(facts, place.end, quantity, place))
      : undefined)
  );
}

function ofJob({ second, seen, paper }: Around, quantity: string, place: Place): Answer {
  const { job } = second;
  switch (quantity) {
    case "job.name":
      return words(job.name);
    case "job.bars":
      return mm(second.ids.length);
    case "job.gap":
      return mm(job.gap);
    case "job.accepted":
      return mm(job.wrapBeyond);
    case "dangers":
      return mm(second.dangers(place.overview ? undefined : place.bar));
    case "job.kerf":
      return mm(job.kerf);
    case "job.steepest":
      return mm(job.steepest);
    case "job.turnSide":
      return words(job.turnSide);
    case "job.dieTested": {
      const { tests } = job.dies[place.die as string]!;
      return mm(tests.reduce((sum, t) => sum + t.got, 0) / tests.length);
    }
    case "paper":
      return mm(paper);
    case "page":
    case "pages":
    case "square":
    case "sheet":
    case "sheets":
    case "piece":
    case "pieces":
      return mm(place[quantity] as number | undefined);
    case "square.here":
      return claim(place.square === place.page);
    case "rev": {
      // a digest: nothing to figure it from, but it is one and the same on all that is printed of a bar
      const said = seen.get(`rev ${place.bar}`) ?? (place.revRead as string | undefined);
      return words(said);
    }
    case "card.n":
    case "card.on":
    case "card.new":
    case "card.issued": {
      // issued already where the code is the last one's; else the next number
      const last = second.job.cards[place.bar ?? ""];
      const isIssued = last !== undefined && last.code === seen.get(`rev ${place.bar}`);
      if (quantity === "card.n") return mm(isIssued ? last.n : (last?.n ?? 0) + 1);
      if (quantity === "card.on") return words(isIssued ? last.on : undefined);
      return claim(isIssued === (quantity === "card.issued"));
    }
    default:
      return undefined;
  }
}
