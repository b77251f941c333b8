import type { Wanted } from "./figure.ts";
import type { Place } from "./scan.ts";
import { risesOver, setFor, springOf } from "./second/bender.ts";
import type { BarFacts, End, Second } from "./second/index.ts";
import type { Node } from "./second/job.ts";
import { halfTurn, type V } from "./second/vec.ts";

const DEG = 180 / Math.PI;
const mm = (value: number | undefined, slack?: number): Wanted | undefined =>
  value === undefined ? undefined : { value, ...(slack === undefined ? {} : { slack }) };
const words = (text: string | undefined): Wanted | undefined =>
  text === undefined ? undefined : { words: text };
const claim = (is: boolean): Wanted => ({ words: is ? "true" : "false" });
const list = (values: readonly number[]): Wanted[] => values.map((value) => ({ value }));
type Answer = Wanted | Wanted[] | undefined;

/** What a cut that a search found, told to a thousandth, leaves uncertain in what is figured from it (mm). */
const FOUND = 0.006;
/** See `edge`. */
const GRAZING = 0.01;
/** Nearer than this (degrees) a place round the tube is said to be on a line. */
const ON = 0.05;

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
  const whole = ofJob(around, quantity, place);
  if (whole) return whole;
  if (place.bar === undefined) return undefined;
  const facts = second.bar(place.bar);
  return (
    ofBar(second, facts, quantity) ??
    ofBends(facts, quantity, place, job.turnSide) ??
    ofNodes(second, facts, quantity, place) ??
    ofLimits(facts, quantity, place) ??
    (place.end
      ? (ofEnd(facts, place.end, quantity, place) ?? ofCut(facts, place.end, quantity, place))
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
    case "sheet":
    case "sheets":
    case "piece":
    case "pieces":
      return mm(place[quantity] as number | undefined);
    case "rev": {
      // a digest: nothing to figure it from, but it is one and the same on all that is printed of a bar
      const said = seen.get(`rev ${place.bar}`) ?? (place.revRead as string | undefined);
      return words(said);
    }
    default:
      return undefined;
  }
}

function ofBar(second: Second, f: BarFacts, quantity: string): Answer {
  const { laid, job } = f;
  const bends = laid.line.bends;
  // where part of the rim misses, the long point lies on a line that grazes: there two right answers differ
  const edge = (["A", "B"] as const).some((end) => f.cope[end].misses.length > 0) ? GRAZING : undefined;
  switch (quantity) {
    case "bar.id":
      return words(laid.id);
    case "bar.label":
      return words(laid.own.label);
    case "bar.hand":
      return words(second.hand(laid.id));
    case "bar.handTwin": {
      const twin = second.twin(laid.id);
      return words(twin === undefined ? second.hand(laid.id) : `${second.hand(laid.id)}, twin ${twin}`);
    }
    case "bar.tube":
      return words(laid.own.tube);
    case "bar.material":
      return words(laid.tube.material ?? "");
    case "bar.mirrorOf":
      return words(laid.own.mirrorOf);
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
    case "sawn":
      return mm(f.sawn, edge);
    case "trim.A":
      return mm(laid.trim.A);
    case "trim.B":
      return mm(laid.trim.B);
    case "bends":
      return mm(bends.length);
    case "lead":
      return words(f.lead);
    case "tail":
      return words(f.tail);
    case "leadEnd":
      return words(`end ${f.lead}`);
    case "onto.A":
      return words(ontoOf(f, "A"));
    case "onto.B":
      return words(ontoOf(f, "B"));
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
      return words(laid.own.follow?.bar ?? job.bars[laid.own.mirrorOf ?? laid.id]!.follow?.bar);
    case "follow.gap":
      return mm(laid.own.follow?.gap ?? job.bars[laid.own.mirrorOf ?? laid.id]!.follow?.gap);
    default:
      return undefined;
  }
}

const sideName = (f: BarFacts, end: End): string =>
  f.cope[end].joint.kind === "plate" ? "long point" : "heel";

const near =
  (value: number, slack: number) =>
  (read: number): boolean =>
    Math.abs(halfTurn(read - value)) <= 0.0005 + slack;

function ontoOf(f: BarFacts, end: End): string {
  const { kind, onto } = f.cope[end].joint;
  if (kind === "square") return "nothing, square";
  if (kind === "on") return onto.join(" + ");
  return `${f.laid.own.mirrorOf === undefined ? "plate" : "the mirror image of plate"} ${onto[0]}`;
}

function ofBends(f: BarFacts, quantity: string, place: Place, turnSide: string): Answer {
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

/** The path as typed: what a card says that it was figured from. */
function ofNodes(second: Second, f: BarFacts, quantity: string, place: Place): Answer {
  if (!quantity.startsWith("node.")) return undefined;
  const key = place.node as string | undefined;
  const { path } = second.job.bars[f.laid.own.mirrorOf ?? f.laid.id]!;
  const i = key === "A" ? 0 : key === "B" ? path.length - 1 : Number(key?.slice(7));
  const node = path[i];
  if (!node) return undefined;
  const at = (v: V): Wanted[] => list([...v]);
  const of = (n: Node): Answer => {
    switch (quantity) {
      case "node.at":
        return n.kind === "at" ? at(n.at) : undefined;
      case "node.step":
        return n.kind === "step" ? at(n.step) : undefined;
      case "node.plate":
        return n.kind === "plate" ? words(n.plate) : undefined;
      case "node.plateAt":
        return n.kind === "plate" ? at(second.job.plates[n.plate]!.at) : undefined;
      case "node.point":
        return n.kind === "point" ? words(n.point) : undefined;
      case "node.pointAt":
        return n.kind === "point" ? at(second.job.points[n.point]!) : undefined;
      case "node.by":
        return n.kind === "point" ? at(n.by) : undefined;
      default:
    }
    if (n.kind !== "on") return undefined;
    switch (quantity) {
      case "node.on":
        return words(n.on);
      case "node.along":
        return n.along === undefined ? undefined : mm(Math.abs(n.along));
      case "node.alongEnd":
        return words((n.along ?? 0) < 0 ? "B" : "A");
      case "node.axis":
        return n.axis === undefined ? undefined : words("xyz"[n.axis]);
      case "node.value":
        return mm(n.value);
      case "node.side":
        return typeof n.near === "string" ? words(n.near) : undefined;
      case "node.near":
        return typeof n.near === "object" ? at(n.near) : undefined;
      case "node.off":
        return at(n.off);
      case "node.also":
        return words(n.also.join(", "));
      default:
        return undefined;
    }
  };
  const toward = node.kind === "on" ? node.toward : undefined;
  if (quantity.startsWith("node.toward.")) {
    quantity = quantity.replace("toward.", "");
    return toward && of(toward);
  }
  return of(node);
}

/** Findings of the bender, of a follower, of a landing. */
function ofLimits(f: BarFacts, quantity: string, place: Place): Answer {
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
  return typeof value === "number" ? mm(value) : undefined;
}

function ofEnd(f: BarFacts, end: End, quantity: string, place: Place): Answer {
  const cope = f.cope[end];
  const { joint } = cope;
  const { zeroLine } = joint.frame;
  const bends = f.laid.line.bends;
  switch (quantity) {
    case "end":
      return words(end);
    case "onto":
      return words(ontoOf(f, end));
    case "hosts":
      return words(joint.onto.join(", "));
    case "ontoIds":
      return words(joint.onto.join(" + "));
    case "kind":
      return words(joint.kind);
    case "zeroId":
      return words(zeroLine);
    case "zero":
      return words(
        zeroLine === "up"
          ? "the side that faces up in the car"
          : zeroLine === "forward"
            ? "the side that faces forward in the car"
            : `the outside of ${zeroLine}`,
      );
    case "zeroShort":
      return words(zeroLine.startsWith("bend") ? `outside of ${zeroLine}` : `${zeroLine} in the car`);
    case "half":
      return words(
        zeroLine === "up" ? "down" : zeroLine === "forward" ? "rearward" : `inside of ${zeroLine}`,
      );
    case "trim":
      return mm(f.laid.trim[end]);
    case "least":
      return mm(cope.least, cope.misses.length > 0 ? GRAZING : undefined);
    case "greatest":
      // the table takes it from lines a degree apart
      return mm(cope.greatest, 0.01);
    case "shortLong":
      return mm(cope.greatest - cope.least, 0.01);
    case "tilt":
      return mm(joint.tilt);
    case "tilt.square":
      return claim(joint.tilt < 0.01);
    case "long.abs":
      return mm(Math.abs(halfTurn(joint.longSide)), 0.002);
    case "long.way":
      return words(halfTurn(joint.longSide) >= 0 ? "counter-clockwise" : "clockwise");
    case "long.round":
      return mm((Math.abs(halfTurn(joint.longSide)) / DEG) * (f.laid.tube.od / 2), 0.002);
    case "side":
      return f.side(end) === undefined ? undefined : { accepts: near(f.side(end)!, 0.003) };
    case "offSquare":
      return joint.kind === "on" ? mm(f.notch(end)?.cut?.notch) : mm(joint.tilt);
    case "base.sawn":
      return mm(baseOf(place) + f.laid.trim[end]);
    case "base.bend": {
      const bend = end === "A" ? bends[0]! : bends[bends.length - 1]!;
      const straight = end === "A" ? bend.start : f.laid.line.length - bend.end;
      return mm(straight - cope.least - baseOf(place));
    }
    case "base.intoBend": {
      const bend = end === "A" ? bends[0]! : bends[bends.length - 1]!;
      const straight = end === "A" ? bend.start : f.laid.line.length - bend.end;
      return mm(-(straight - cope.least - baseOf(place)));
    }
    case "nearBend":
      return mm(end === "A" ? 1 : bends.length);
    case "misses":
      return cope.misses.flatMap(([a, b]) => list([a, b]).map((w) => ({ ...w, slack: 0.06 })));
    case "missed":
      return mm(
        cope.misses.reduce((sum, [a, b]) => sum + ((((b - a) % 360) + 360) % 360), 0),
        0.1,
      );
    case "gamma":
      return mm(joint.hosts[0] && joint.hosts[0].gamma * DEG);
    case "hostOd":
      return mm(joint.hosts[0] && 2 * joint.hosts[0].H);
    case "nearEnd.distance":
      return mm(f.nearEnd(end)?.distance);
    case "nearEnd.needed":
      return mm(f.nearEnd(end)?.needed);
    case "bentInJoint":
      return claim(cope.bentInJoint);
    case "bentInJoint.bend":
      return cope.bentInJoint ? mm(end === "A" ? 1 : bends.length) : undefined;
    case "steep":
      return mm(joint.hosts[0] && 90 - joint.hosts[0].gamma * DEG);
    default:
      return undefined;
  }
}

const baseOf = (place: Place): number => place.base as number;

function ofCut(f: BarFacts, end: End, quantity: string, place: Place): Answer {
  const notch = f.notch(end);
  if (!notch) return quantity === "exact" || quantity === "useWrap" ? words("") : undefined;
  const { cut, hole, fit } = notch;
  const { saws } = f.job;
  const { rho } = f.cope[end].joint;
  const loose = f.cope[end].misses.length > 0 ? GRAZING : notch.onAxis ? 0.001 : FOUND;
  if (quantity === "exact") return words(notch.exact ? "yes" : "no");
  if (quantity === "useWrap") return words(notch.useWrap ? "yes" : "no");
  if (quantity === "cut.none") return claim(cut === undefined && notch.doubt === undefined);
  if (quantity.startsWith("crowd.")) return ofCrowd(f, end, quantity, place);
  if (!cut || !hole) return undefined;
  const phi = halfTurn(cut.clock);
  const gapAt = (read: number): boolean =>
    fit === undefined ? read === 0 : Math.abs(fit.gaps[Math.round(read) % 360]! - fit.gap) < 0.02;
  switch (quantity) {
    case "cut.saw":
      // a saw that the shop has, or the host's own size where it names none
      if (notch.doubt !== undefined) return words(notch.doubt);
      return notch.onAxis || saws.length === 0 || saws.some((d) => Math.abs(d - 2 * cut.radius) < 1e-6)
        ? mm(2 * cut.radius)
        : words("a saw at hand");
    case "cut.exact":
      return claim(notch.exact);
    case "cut.inexact":
      return claim(!notch.exact);
    case "cut.flush":
      return claim(notch.onAxis && !notch.exact);
    case "cut.notch":
      return mm(cut.notch, 0.0011);
    case "cut.clockAbs":
      return mm(Math.abs(phi), 0.002);
    case "cut.clockWay":
      return words(phi >= 0 ? "counter-clockwise" : "clockwise");
    case "cut.square":
      return claim(cut.notch === 0 || cut.notch < 1e-6);
    case "cut.round":
      return mm((Math.abs(phi) / DEG) * rho, 0.002);
    case "cut.offset":
      return mm(cut.offset, 0.001);
    case "cut.offsetAbs":
      return mm(Math.abs(cut.offset), 0.001);
    case "cut.noOffset":
      return claim(Math.abs(cut.offset) < 0.006);
    case "cut.offsetWay":
      return words(cut.offset > 0 ? "counter-clockwise" : "clockwise");
    case "cut.offsetSideAbs":
      return mm(Math.abs(halfTurn(cut.clock + Math.sign(cut.offset) * 90)), 0.002);
    case "cut.offsetSideWay":
      return words(halfTurn(cut.clock + Math.sign(cut.offset) * 90) > 0 ? "counter-clockwise" : "clockwise");
    case "hole.beyond":
      return mm(hole.beyond, loose);
    case "hole.beyondAbs":
      return mm(Math.abs(hole.beyond), loose);
    case "hole.on":
      return claim(Math.abs(hole.beyond) < 0.006);
    case "hole.out":
      return claim(hole.beyond > 0);
    case "hole.in":
      return claim(hole.beyond < 0);
    case "hole.sawn":
      return mm(hole.fromSawn, loose);
    case "hole.sawnAbs":
      return mm(Math.abs(hole.fromSawn), loose);
    case "hole.inside":
      return claim(hole.fromSawn >= -0.006);
    case "hole.off":
      return claim(hole.fromSawn < 0);
    case "hole.bend":
      return mm(hole.fromBend, loose);
    case "hole.noBend":
      return claim(hole.fromBend === undefined);
    case "gap":
      return mm(fit?.gap ?? 0, FOUND);
    case "gapAt":
      return { accepts: gapAt };
    case "standsOff":
      return mm(fit?.standsOff, FOUND);
    case "most":
      return mm(fit?.most, FOUND);
    case "mostAt":
      return { accepts: (read) => leftAt(f, end, Math.round(read)) > (fit?.most ?? 0) - 0.02 };
    case "fromShallower":
      return mm(notch.steps!.fromShallower, FOUND);
    case "fromSteeper":
      return mm(notch.steps!.fromSteeper, FOUND);
    case "rule.holds":
      return claim(notch.steps!.holds);
    case "rule.fails":
      return claim(!notch.steps!.holds);
    case "leave":
      return mm(notch.steps!.leave, FOUND);
    case "range.low":
      return mm(notch.steps!.range[0], 0.002);
    case "range.high":
      return mm(notch.steps!.range[1], 0.002);
    default:
  }
  if (!quantity.startsWith("step.") || !notch.steps) return undefined;
  const { steps } = notch.steps;
  const step = steps[Number(place.cut) - 1];
  if (!step) return undefined;
  const side = Math.abs(halfTurn(step.gapAt));
  const open = side < 45 ? "heel" : side > 135 ? "toe" : "flank";
  switch (quantity) {
    case "step.final":
      return claim(Number(place.cut) === steps.length);
    case "step.early":
      return claim(Number(place.cut) < steps.length);
    case "step.notch":
      return mm(step.notch, 0.002);
    case "step.sawn":
      return mm(Math.abs(hole.fromSawn - step.outboard), FOUND);
    case "step.inside":
      return claim(hole.fromSawn - step.outboard >= -0.006);
    case "step.off":
      return claim(hole.fromSawn - step.outboard < 0.006);
    case "step.beyond":
      return mm(Math.abs(hole.beyond + step.outboard), FOUND);
    case "step.out":
      return claim(hole.beyond + step.outboard > -0.011);
    case "step.short":
      return claim(hole.beyond + step.outboard < 0);
    case "step.outboard":
      return mm(step.outboard, FOUND);
    case "step.standsOff":
      return mm(step.standsOff, FOUND);
    case "step.gap":
      return mm(step.gap, FOUND);
    case "step.open":
      return words(open);
    case "step.toeTouches":
      return claim(open === "heel");
    case "step.heelTouches":
      return claim(open === "toe");
    case "step.flankOpen":
      return claim(open === "flank");
    case "step.seated":
      return claim(notch.onAxis && Number(place.cut) === steps.length);
    default:
      return undefined;
  }
}

function leftAt(f: BarFacts, end: End, phi: number): number {
  const { cut, fit } = f.notch(end)!;
  if (!cut || !fit) return 0;
  // the metal left square to the host, on the outside or at the bore
  return Math.max(
    ...f.walls(end).map(({ rho, back, sine }) => {
      const at = ((phi % 360) + 360) % 360;
      const side = rho * Math.sin((at - cut.clock) / DEG) - cut.offset;
      const gamma = (90 - cut.notch) / DEG;
      const saw =
        (Math.sqrt(Math.max(0, cut.radius ** 2 - side * side)) +
          rho * Math.cos((at - cut.clock) / DEG) * Math.cos(gamma)) /
          Math.sin(gamma) +
        fit.centre;
      return (back[at]! - saw) * sine[at]!;
    }),
  );
}

function ofCrowd(f: BarFacts, end: End, quantity: string, place: Place): Answer {
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
