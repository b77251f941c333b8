import { risesOver, springOf } from "../second/bender.ts";
import type { BarFacts, End, Second } from "../second/index.ts";
import { type Answer, claim, DEG, GRAZING, list, mm, near, ON, words } from "./answer.ts";
import { ontoOf } from "./onto.ts";

export function ofBar(second: Second, f: BarFacts, quantity: string): Answer {
  const { laid, job } = f;
  const bends = laid.line.bends;
  // where part of the rim misses, the long point lies on a line that grazes: there two right answers differ
  const edge = (["A", "B"] as const).some((end) => f.cope[end].misses.length > 0) ? GRAZING : undefined;
  const followed = laid.own.follow?.bar ?? job.bars[laid.own.mirrorOf ?? laid.id]!.follow?.bar;
  switch (quantity) {
    case "bar.label":
      return words(laid.own.label);
    case "bar.hand":
      return words(second.hand(laid.id));
    case "bar.handTwin": {
      const hand = second.hand(laid.id);
      return words(
        hand === "" ? undefined : `${hand}, twin of the ${hand === "left" ? "right" : "left"} one`,
      );
    }
    case "bar.called":
      return words(second.called(laid.id));
    case "bar.number":
      return mm(second.ids.indexOf(laid.id) + 1);
    case "bar.of":
      return mm(second.ids.length);
    case "bar.tube":
      return words(laid.own.tube);
    case "bar.material":
      return words(laid.tube.material ?? "");
    case "bar.mirrorOf":
      return words(laid.own.mirrorOf === undefined ? undefined : second.called(laid.own.mirrorOf));
    case "od":
      return mm(laid.tube.od);
    case "wall":
      return mm(laid.tube.wall);
    case "die":
      return words(laid.own.die);
    case "clr":
      return mm(laid.die?.clr);
    case "die.mark":
      return mm(Math.abs(laid.die!.mark));
    case "die.past":
      return claim(laid.die!.mark > 0);
    case "die.before":
      return claim(laid.die!.mark < 0);
    case "die.atStart":
      return claim(laid.die!.mark === 0);
    case "die.k":
      return mm(springOf(laid.die!)?.k);
    case "die.c":
      return mm(Math.abs(laid.die!.springback?.c ?? 0));
    case "die.cLess":
      return claim((laid.die!.springback?.c ?? 0) < 0);
    case "die.cMore":
      return claim((laid.die!.springback?.c ?? 0) >= 0);
    case "die.tests":
      return mm(laid.die!.tests.length);
    case "die.testList":
      return list(laid.die!.tests.flatMap((t) => [t.set, t.got]));
    case "die.arcFactor":
      return mm(laid.die?.arcFactor);
    case "length":
      return mm(laid.line.length);
    case "net":
      return mm(f.net, edge);
    case "sawn.todo":
      return f.made ? undefined : mm(f.sawn, edge);
    case "sawn":
      return mm(f.sawn, edge);
    case "trim.A":
      return allowanceAt(f, "A");
    case "trim.B":
      return allowanceAt(f, "B");
    case "bends":
      return mm(bends.length);
    case "lead":
      return words(f.lead);
    case "tail":
      return words(f.tail);
    case "leadEnd":
      return words(`end ${f.lead}`);
    case "onto.A":
      return words(ontoOf(second, f, "A"));
    case "onto.B":
      return words(ontoOf(second, f, "B"));
    case "feed.order":
      return list(f.order);
    case "feed.dims":
      return list([...f.order.map((n) => f.marks[f.lead].get(n)!), f.sawn]);
    case "angles":
      return bends.map((b) => ({ value: b.angle * DEG }));
    case "ends.abs":
      return mm(f.ends() === undefined ? undefined : Math.abs(f.ends()!), 0.002);
    case "ends.signed":
      return f.ends() === undefined ? undefined : { accepts: near(f.ends()!, 0.002) };
    case "ends.way":
      return words(f.ends()! > 0 ? "clockwise" : "counter-clockwise");
    case "ends.round":
      return mm((Math.abs(f.ends()!) / DEG) * (laid.tube.od / 2));
    case "ends.inLine":
      return claim(Math.abs(f.ends()!) < ON);
    case "ends.opposite":
      return claim(180 - Math.abs(f.ends()!) < ON);
    case "ends.sideA":
      return words(sideName(f, "A"));
    case "ends.sideB":
      return words(sideName(f, "B"));
    case "rises":
      return mm(risesOver(laid).height);
    case "rises.flat":
      return claim(risesOver(laid).height <= 0.5);
    case "rises.up":
      return claim(risesOver(laid).height > 0.5);
    case "firstBend":
      return mm(f.order[0]);
    case "own.first":
      return mm(f.order[0]);
    case "own.second":
      return mm(f.order[1]);
    case "own.markFirst":
      return mm(f.marks[f.lead].get(f.order[0]!));
    case "own.markSecond":
      return mm(f.marks[f.tail].get(f.order[1]!));
    case "follow.bar":
      return followed === undefined ? undefined : words(second.called(followed));
    case "follow.gap":
      return mm(laid.own.follow?.gap ?? job.bars[laid.own.mirrorOf ?? laid.id]!.follow?.gap);
    default:
      return undefined;
  }
}

const sideName = (f: BarFacts, end: End): string =>
  f.cope[end].joint.kind === "plate" ? "long point" : "heel";

/** How far from the tube's own length the ends of a bar that is bent otherwise may be, all in all (mm). */
const BENT_OTHERWISE = 3;

/**
 * What is left at an end. Of a bar that was bent otherwise than the plan has it, the solver's placing says how much: one
 * and the same everywhere, and with the other end what the tube has beyond its net length.
 */
function allowanceAt(f: BarFacts, end: End): Answer {
  const planned = f.made?.bent?.bends.every((b) => {
    const { mark, angle } = {
      mark: f.planned[f.made!.bent!.fed].get(b.n)!,
      angle: f.laid.line.bends[b.n - 1]!.angle,
    };
    return Math.abs(b.mark - mark) < 0.05 && Math.abs(b.angle - angle * DEG) < 0.05;
  });
  if (planned !== false) return mm(f.allowance(end));
  return {
    accepts: (read) => {
      const first = (f.placed[end] ??= read);
      const other = f.placed[end === "A" ? "B" : "A"];
      const isWhole = other === undefined || Math.abs(read + other - (f.sawn - f.net)) < BENT_OTHERWISE;
      return read >= 0 && Math.abs(read - first) < 0.06 && isWhole;
    },
  };
}
